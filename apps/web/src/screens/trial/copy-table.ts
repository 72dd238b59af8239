import type { TrialView } from '@sthene/contract';
import { decimalsFor, numberText, unitText } from '../../number/format.ts';
import { copyParts } from '../../parts/copy-parts.ts';
import { reasonWords, words } from '../../words/index.ts';
import { groupsOf, headlineOf, metricTitle } from './groups.ts';
import { resolutionOf } from './numbers.ts';

/** Rows as they stand on screen: title, value, unit, smallest and largest over the onset rules. */
export function tableRows(view: Pick<TrialView, 'result'>): string[][] {
  const { result } = view;
  const ids = [...headlineOf(result), ...groupsOf(result).flatMap((group) => group.metrics)];
  const t = words.values.head;
  const rows = [[t.name, t.number, '', `${t.spread}, min`, `${t.spread}, max`]];
  for (const id of ids) {
    const measured = result.metrics[id];
    if (!measured) continue;
    if (!('value' in measured)) {
      rows.push([metricTitle(id), reasonWords(measured.reason), '', '', '']);
      continue;
    }
    const decimals = decimalsFor(measured.unit, measured.value, resolutionOf(result));
    // Pasted numbers must be numbers: plain minus, no grouping.
    const plain = (value: number) => numberText(value, decimals).replace('\u2212', '-').replaceAll('\u202f', '');
    const spread = result.spread[id];
    rows.push([
      metricTitle(id),
      plain(measured.value),
      unitText(measured.unit),
      spread ? plain(spread.min) : '',
      spread ? plain(spread.max) : '',
    ]);
  }
  return rows;
}

export const asTabs = (rows: readonly (readonly string[])[]): string => rows.map((row) => row.join('\t')).join('\n');

const escaped = (text: string) => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

export function asHtml(rows: readonly (readonly string[])[]): string {
  const line = (row: readonly string[], tag: string) =>
    `<tr>${row.map((cell) => `<${tag}>${escaped(cell)}</${tag}>`).join('')}</tr>`;
  const [head = [], ...body] = rows;
  return `<table><thead>${line(head, 'th')}</thead><tbody>${body.map((row) => line(row, 'td')).join('')}</tbody></table>`;
}

/** Puts the table on the clipboard as HTML and tab-separated text at once. */
export async function copyTable(view: Pick<TrialView, 'result'>): Promise<void> {
  const rows = tableRows(view);
  await copyParts({ 'text/html': asHtml(rows), 'text/plain': asTabs(rows) });
}
