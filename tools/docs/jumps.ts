import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import {
  defaultJumpMethod,
  flightRules,
  type JumpCheckDefinition,
  type JumpKind,
  type JumpMetricDefinition,
  jumpCheckRegistry,
  jumpMethodRegistry,
  jumpMetricRegistry,
  jumpOnsetRules,
  methodReference,
} from '@sthene/core';

/**
 * Writes what the registries of jumps say into the reference page of jumps, between its marks.
 *
 * Run: npx tsx --conditions=source tools/docs/jumps.ts
 */
export const jumpsPage = fileURLToPath(new URL('../../docs/reference/jumps.md', import.meta.url));

const cell = (text: string): string => text.replaceAll('|', '\\|');
const short: Readonly<Record<JumpKind, string>> = {
  countermovement: 'C',
  squat: 'S',
  drop: 'D',
  repeated: 'H',
};
const kindsOf = (kinds: readonly JumpKind[]): string => kinds.map((kind) => short[kind]).join(' ');
const better = { higher: 'more', lower: 'less', neither: '-' } as const;

const row = (cells: readonly string[]): string => `| ${cells.map(cell).join(' | ')} |`;

const metricRow = (one: JumpMetricDefinition): string =>
  row([
    `\`${one.id}\``,
    String(one.version),
    one.title,
    one.unit,
    kindsOf(one.kinds),
    one.formula,
    better[one.better],
    one.source,
  ]);

/** How a limit came about, read from its source. */
function standing({ source }: JumpCheckDefinition): string {
  if (/^Definition and limits are proposals/u.test(source)) return 'our proposal';
  return /limit|proposal/u.test(source) ? 'published in part' : 'published';
}

const checkRow = (one: JumpCheckDefinition): string =>
  row([
    `\`${one.id}\``,
    String(one.version),
    one.title,
    kindsOf(one.kinds),
    one.definition,
    Object.entries(one.defaultLimits)
      .map(([name, value]) => `\`${name}\` ${value}`)
      .join(', '),
    standing(one),
    one.source,
  ]);

const sections: Readonly<Record<string, () => string>> = {
  metrics: () =>
    [
      '| id | version | title | unit | jumps | definition | better | source |',
      '| --- | --- | --- | --- | --- | --- | --- | --- |',
      ...jumpMetricRegistry.all.map(metricRow),
    ].join('\n'),
  checks: () =>
    [
      '| id | version | what is so when it passes | jumps | definition | limits | standing | source |',
      '| --- | --- | --- | --- | --- | --- | --- | --- |',
      ...jumpCheckRegistry.all.map(checkRow),
    ].join('\n'),
  'onset rules': () =>
    [
      '| id | version | title | definition | source |',
      '| --- | --- | --- | --- | --- |',
      ...jumpOnsetRules.all.map((one) =>
        row([`\`${one.id}\``, String(one.version), one.title, one.definition, one.source]),
      ),
    ].join('\n'),
  methods: () =>
    [
      '| id | name | version | SHA-256 | in words |',
      '| --- | --- | --- | --- | --- |',
      ...jumpMethodRegistry.all.map(({ id, method }) =>
        row([
          `\`${id}\``,
          method.name,
          String(method.version),
          `\`${methodReference(method).sha256}\``,
          method.summary,
        ]),
      ),
      '',
      `Rules of take-off and touchdown: ${Object.keys(flightRules)
        .map((id) => `\`${id}\``)
        .join(', ')}. Everything but checks and metrics of the first method:`,
      '',
      '```json',
      JSON.stringify({ ...defaultJumpMethod, metrics: '...', checks: '...' }, null, 2),
      '```',
    ].join('\n'),
};

/** The page with everything between its marks made anew. */
export function jumpsPageWith(text: string): string {
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
  writeFileSync(jumpsPage, jumpsPageWith(readFileSync(jumpsPage, 'utf8')));
