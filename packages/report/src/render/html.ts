import { escaped } from '../figure/svg.ts';
import type { Block, ReportDocument } from '../model/document.ts';
import type { Table } from '../model/table.ts';
import { pasted } from './csv.ts';
import { htmlStyle } from './html-style.ts';

/** A table as HTML: for the clipboard of spreadsheets and word processors, or on a page. */
export function tableHtml({ columns, rows, title, note }: Table, copied = true): string {
  const side = (i: number) => (columns[i]?.align === 'right' ? ' align="right"' : '');
  const head = columns.map((column, i) => `<th scope="col"${side(i)}>${escaped(column.title)}</th>`).join('');
  const body = rows.map((row) => {
    const cells = row.map((one, i) => {
      const said = escaped(copied ? pasted(one) : one.text).replaceAll('\n', '<br>');
      return i === 0 ? `<th scope="row">${said}</th>` : `<td${side(i)}>${said}</td>`;
    });
    return `<tr>${cells.join('')}</tr>`;
  });
  const said = copied ? `<caption>${escaped(title)}</caption>` : '';
  const under = note === undefined ? '' : `<p class="note">${escaped(note)}</p>`;
  return `<table>${said}<thead><tr>${head}</tr></thead><tbody>${body.join('')}</tbody></table>${under}`;
}

/** A report as one page of HTML without scripts, to look at before it is printed. */
export function htmlOf(report: ReportDocument): string {
  const { language, title, subject, lab, banner, blocks, foot } = report;
  const logo =
    lab.logo === undefined
      ? ''
      : `<img alt="" src="data:${lab.logo.mediaType};base64,${Buffer.from(lab.logo.bytes).toString('base64')}">`;
  return [
    `<!doctype html><html lang="${language}"><head><meta charset="utf-8">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${escaped(`${title}: ${subject}`)}</title><style>${htmlStyle}</style></head><body><main>`,
    `<header>${logo}<span>${escaped(lab.name)}</span>${banner ? `<b>${escaped(banner)}</b>` : ''}</header>`,
    `<h1><small>${escaped(title)}</small>${escaped(subject)}</h1>`,
    ...blocks.map(blockHtml),
    `<footer>${escaped(foot)}</footer></main></body></html>\n`,
  ].join('');
}

function blockHtml(block: Block): string {
  switch (block.kind) {
    case 'heading':
      return `<h2>${escaped(block.text)}</h2>`;
    case 'paragraph': {
      const language = block.language === undefined ? '' : ` lang="${escaped(block.language)}"`;
      return `<p class="${block.style ?? 'plain'}"${language}>${escaped(block.text)}</p>`;
    }
    case 'statement':
      return `<p class="statement"><span>${escaped(block.mark)} ${escaped(block.word)}</span><b>${escaped(block.value)}</b></p>`;
    case 'list': {
      const tag = block.ordered ? 'ol' : 'ul';
      const language = block.language === undefined ? '' : ` lang="${escaped(block.language)}"`;
      return `<${tag}${language}>${block.items.map((item) => `<li>${escaped(item)}</li>`).join('')}</${tag}>`;
    }
    case 'notice':
      return `<div class="notice"><p>${escaped(block.title)}</p>${block.items.map((item) => `<p><b>${escaped(item)}</b></p>`).join('')}</div>`;
    case 'facts': {
      const items = block.items.map(
        ({ name, value, note }) =>
          `<dt>${escaped(name)}</dt><dd><b>${escaped(value)}</b>${note ? `, ${escaped(note)}` : ''}</dd>`,
      );
      return `<dl>${items.join('')}</dl>`;
    }
    case 'figure':
      return `<figure>${block.figure.svg}<figcaption>${escaped(block.figure.caption)}</figcaption></figure>`;
    case 'table':
      return `<div class="wide">${tableHtml(block.table, false)}</div>`;
    case 'columns': {
      const shares = block.columns.map((_, i) => Math.round(100 * (block.shares[i] ?? 1 / block.columns.length)));
      const columns = block.columns.map(
        (one, i) => `<div style="flex-grow:${shares[i]}">${one.map(blockHtml).join('')}</div>`,
      );
      return `<div class="columns">${columns.join('')}</div>`;
    }
  }
}
