import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { exchangeFields, refusedWords } from '../../packages/formats/src/results-table/index.ts';

/**
 * Writes the columns of an exchange file, and the codes of cells that are left out, into their page, between their marks.
 *
 * Run: npx tsx --conditions=source tools/docs/exchange-format.ts
 */
export const exchangePage = fileURLToPath(new URL('../../docs/reference/exchange-format.md', import.meta.url));

const sections: Readonly<Record<string, () => string>> = {
  columns: () =>
    [
      '| column | kind | always | what |',
      '| --- | --- | --- | --- |',
      ...exchangeFields.map(
        (field) =>
          `| \`${field.name}\` | ${field.type} | ${'constraints' in field && field.constraints ? 'yes' : ''} | ${field.description} |`,
      ),
    ].join('\n'),
  cells: () =>
    [
      '| code | meaning | what to do |',
      '| --- | --- | --- |',
      ...Object.entries(refusedWords).map(([code, { means, next }]) => `| \`${code}\` | ${means} | ${next} |`),
    ].join('\n'),
};

/** The page with everything between its marks made anew. */
export function exchangePageWith(text: string): string {
  let page = text;
  for (const [name, make] of Object.entries(sections)) {
    const [open, close] = [`<!-- ${name} -->`, `<!-- end of ${name} -->`];
    const from = page.indexOf(open);
    const to = page.indexOf(close);
    if (from < 0 || to < from) throw new Error(`The page has no marks for ${name}.`);
    page = `${page.slice(0, from + open.length)}\n\n${make()}\n\n${page.slice(to)}`;
  }
  return page;
}

if (process.argv[1] === fileURLToPath(import.meta.url))
  writeFileSync(exchangePage, exchangePageWith(readFileSync(exchangePage, 'utf8')));
