import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { refusals } from '@sthene/capture';
import { type Expression, type ObjectExpression, parseSync, Visitor } from 'oxc-parser';

const live = fileURLToPath(new URL('../../../apps/station/src/live/', import.meta.url));
/** Where the station itself refuses; everything else comes from the live engine. */
const files = ['commands.ts', 'refusals.ts', 'socket.ts', 'next-up.ts'];

interface Said {
  readonly code: string;
  readonly words: string;
  readonly next: string;
}

/** Refusals that are written in a file: every object with a code, words and what comes next. */
function written(path: string): Said[] {
  const found: Said[] = [];
  new Visitor({
    ObjectExpression(node) {
      const [code, words, next] = ['code', 'words', 'next'].map((name) => textOf(fieldOf(node, name)));
      if (code !== undefined && words !== undefined && next !== undefined) found.push({ code, words, next });
    },
  }).visit(parseSync(path, readFileSync(path, 'utf8')).program);
  return found;
}

function fieldOf({ properties }: ObjectExpression, name: string): Expression | undefined {
  for (const one of properties)
    if (one.type === 'Property' && one.key.type === 'Identifier' && one.key.name === name) return one.value;
  return undefined;
}

function textOf(node: Expression | undefined): string | undefined {
  if (node?.type === 'Literal' && typeof node.value === 'string') return node.value;
  return node?.type === 'Identifier' && node.name === 'lookAgain' ? 'Look at the screen and decide again.' : undefined;
}

/** Every code of `refused`, once, with its words. */
export function refusalCodes(): string {
  const byCode = new Map<string, Said>();
  for (const file of files)
    for (const one of written(live + file)) if (!byCode.has(one.code)) byCode.set(one.code, one);
  const engine = Object.entries(refusals).filter(([code]) => !byCode.has(code));
  const rows = [
    ...[...byCode.values()].map(({ code, words, next }) => [
      code,
      `${words || 'The words name what stands in the way.'} ${next}`,
    ]),
    ...engine.map(([code, words]) => [code, words]),
  ].sort(([a = ''], [b = '']) => a.localeCompare(b, 'en'));
  return ['| code | says |', '| --- | --- |', ...rows.map(([code, says]) => `| \`${code}\` | ${says} |`)].join('\n');
}
