import type { PackageInfo, Resource } from './descriptor.ts';

/** The README of a package, for people who open it without any program of ours. */
export function readmeOf(info: PackageInfo, tables: readonly Resource[], keepFacts: boolean): string {
  const license = info.licenses?.map((l) => l.title ?? l.name).join(', ');
  const lines = [
    `# ${info.title ?? info.name}`,
    '',
    ...(info.description === undefined ? [] : [info.description, '']),
    `Licence: ${license ?? 'none stated; ask before you use or share these data'}.`,
    '',
    'A Data Package (datapackage.org, version 2). `datapackage.json` describes every file, column and unit (UCUM codes) and',
    'holds the SHA-256 hash of each file.',
    '',
    '| file | what |',
    '| --- | --- |',
    ...tables.map((table) => `| ${table.path} | ${(table.title ?? table.name).replaceAll('|', '\\|')} |`),
    '',
    'Curves: `time` in seconds from the first sample, then physical values. An empty cell is a missing sample. Forces of',
    'plates have the sign of their source; `pressSign` in the description tells which way pressing goes.',
    '',
    'Results: one row a metric of a trial; where there is no value, `reason` says why.',
    '',
    keepFacts
      ? 'Facts of the sources (devices, notes, instants) are included: check them for names before you share the package.'
      : 'Facts of the sources (devices, notes, instants of recording) were left out because they may name people.',
    '',
  ];
  return lines.join('\n');
}
