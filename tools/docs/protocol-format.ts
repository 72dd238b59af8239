import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import {
  protocolAdviceCodes,
  protocolFaults,
  protocolFields,
  rangeText,
  usualProtocol,
} from '../../packages/core/src/index.ts';

/**
 * Writes fields, faults, advice and the example of a protocol into its page, between their marks.
 *
 * Run: npx tsx --conditions=source tools/docs/protocol-format.ts
 */
export const protocolPage = fileURLToPath(new URL('../../docs/reference/protocol-format.md', import.meta.url));

const fieldRows = () =>
  protocolFields.map(({ path, title, unit, low, high, does, why, source, optional }) => {
    const range = `${rangeText(low, high, unit)}${optional ? ', or left out' : ''}`;
    return `| \`${path}\` | ${title} | ${range} | ${does} | ${why} | ${source} |`;
  });

const codeRows = (codes: Readonly<Record<string, string>>) =>
  Object.entries(codes).map(([code, words]) => `| \`${code}\` | ${words} |`);

const sections: Readonly<Record<string, () => string>> = {
  fields: () =>
    [
      '| field | what | limits | what it does on the day | why these limits | usual value from |',
      '| --- | --- | --- | --- | --- | --- |',
      ...fieldRows(),
    ].join('\n'),
  faults: () => ['| code | meaning |', '| --- | --- |', ...codeRows(protocolFaults)].join('\n'),
  advice: () => ['| code | meaning |', '| --- | --- |', ...codeRows(protocolAdviceCodes)].join('\n'),
  example: () =>
    `\`\`\`json\n${JSON.stringify({ ...usualProtocol('imtp'), setupFields: usualProtocol('imtp').setupFields.slice(0, 3) }, null, 2)}\n\`\`\``,
};

/** The page with everything between its marks made anew. */
export function protocolPageWith(text: string): string {
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
  writeFileSync(protocolPage, protocolPageWith(readFileSync(protocolPage, 'utf8')));
