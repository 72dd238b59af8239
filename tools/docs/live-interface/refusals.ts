import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { refusals } from '@sthene/capture';
import ts from 'typescript';

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
  const text = (node: ts.Node | undefined): string | undefined => {
    if (node === undefined) return undefined;
    if (ts.isStringLiteral(node)) return node.text;
    return ts.isIdentifier(node) && node.text === 'lookAgain' ? 'Look at the screen and decide again.' : undefined;
  };
  const visit = (node: ts.Node): void => {
    if (ts.isObjectLiteralExpression(node)) {
      const value = (name: string) =>
        node.properties.find(
          (one): one is ts.PropertyAssignment => ts.isPropertyAssignment(one) && one.name.getText() === name,
        )?.initializer;
      const [code, words, next] = [text(value('code')), text(value('words')), text(value('next'))];
      if (code !== undefined && words !== undefined && next !== undefined) found.push({ code, words, next });
    }
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile(path, readFileSync(path, 'utf8'), ts.ScriptTarget.Latest, true));
  return found;
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
