import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { refusalCodes } from './refusals.ts';
import { schemaDocument } from './schema.ts';
import { messages, namedShapes, routeTable } from './tables.ts';

/**
 * Writes what the schemas say into the page of the live interface, between its marks, and the JSON Schema beside it. The words
 * around the marks are written by hand.
 *
 * Run: npx tsx --conditions=source tools/docs/live-interface/write.ts
 */
const reference = new URL('../../../docs/reference/', import.meta.url);
export const page = fileURLToPath(new URL('live-interface.md', reference));
export const schemaFile = fileURLToPath(new URL('live-interface.schema.json', reference));

const blocks: Readonly<Record<string, () => string>> = {
  'to the station': () => messages('toStation'),
  'to operators and viewers': () => messages('toOperator'),
  'to walls': () => messages('toWall'),
  refusals: refusalCodes,
  shapes: namedShapes,
  routes: routeTable,
};

/** The page with every block anew. Throws when it lacks the marks of one. */
export function pageWith(text: string): string {
  let out = text;
  for (const [name, make] of Object.entries(blocks)) {
    const [begin, end] = [`<!-- written: ${name} -->`, '<!-- end -->'];
    const from = out.indexOf(begin);
    const to = out.indexOf(end, from);
    if (from < 0 || to < 0) throw new Error(`The page has no place for "${name}".`);
    out = `${out.slice(0, from + begin.length)}\n\n${make()}\n\n${out.slice(to)}`;
  }
  return out;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  writeFileSync(page, pageWith(readFileSync(page, 'utf8')));
  writeFileSync(schemaFile, schemaDocument());
}
