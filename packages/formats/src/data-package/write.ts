import type { Recording } from '@sthene/core';
import { parseDescription } from '../description/index.ts';
import type { FormatError } from '../format-error.ts';
import { WriteRefused } from '../write-refused.ts';
import { checkDescriptor } from './check-descriptor.ts';
import { curveOf } from './curve.ts';
import { type Descriptor, type PackageInfo, profile, type Resource } from './descriptor.ts';
import { fault, PackageFault } from './errors.ts';
import { sha256Of } from './hash.ts';
import { readmeOf } from './readme.ts';
import { type ResultRow, resultFields, resultProblem, resultsCsv } from './results.ts';
import { isUcum } from './ucum.ts';
import { packFiles } from './zip.ts';

/** One recording of a package. */
export interface PackageRecording {
  /** Name of its resource and file: lower-case letters, digits, `.`, `-`, `_`; unique. */
  readonly name: string;
  readonly title?: string;
  readonly recording: Recording;
}

/** What goes into a package. */
export interface PackageInput {
  readonly info: PackageInfo;
  readonly recordings: readonly PackageRecording[];
  readonly results?: readonly ResultRow[];
  /** Keep facts, notices and instants of the recordings; left out otherwise because they may name people. */
  readonly keepFacts?: boolean;
}

const slug = /^[a-z0-9._-]+$/;

function bad(message: string, expected: string): PackageFault {
  return fault('data-package-bad-input', message, 'Correct it and export again.', { expected });
}

function checkInput({ info, recordings, results = [] }: PackageInput): void {
  const names = ['results', 'readme', ...recordings.map((r) => r.name)];
  for (const name of [info.name, ...names]) {
    if (!slug.test(name) || /^\.+$/.test(name)) {
      throw bad(`"${name}" is no name for a package or a file.`, 'lower-case letters, digits, ".", "-" and "_"');
    }
  }
  if (new Set(names).size < names.length) throw bad('Two recordings have the same name.', 'names that differ');
  if (recordings.length === 0 && results.length === 0)
    throw bad('The package would be empty.', 'recordings or results');
  for (const { name, recording } of recordings) {
    const lengths = [
      ...recording.channels.map((channel) => channel.raw.length),
      ...recording.platforms.flatMap((platform) => platform.verticalForce?.length ?? []),
    ];
    if (lengths.some((length) => length !== recording.sampleCount)) {
      throw bad(`The columns of "${name}" differ in length.`, `${recording.sampleCount} samples each`);
    }
    const unit = recording.channels.find((channel) => channel.unit !== '' && !isUcum(channel.unit))?.unit;
    if (unit !== undefined) throw bad(`"${unit}", a unit of "${name}", is no UCUM code.`, 'a UCUM code');
  }
  for (const [i, row] of results.entries()) {
    const problem = resultProblem(row);
    if (problem !== null) throw bad(`Result ${i + 1} (${row.trial}, ${row.metric}): ${problem}.`, 'a row of results');
  }
}

async function fileResource(
  path: string,
  bytes: Uint8Array,
  more: Partial<Resource> & { name: string },
): Promise<Resource> {
  const format = path.endsWith('.md') ? 'md' : 'csv';
  return {
    path,
    format,
    mediatype: format === 'md' ? 'text/markdown' : 'text/csv',
    encoding: 'utf-8',
    bytes: bytes.length,
    hash: await sha256Of(bytes),
    ...more,
  };
}

/**
 * Writes a Data Package (version 2): `datapackage.json`, `README.md`, `results.csv` and one `recordings/<name>.csv` each.
 * The same input gives the same bytes. `datapackage.json` comes first in the map.
 *
 * @throws WriteRefused `data-package-bad-input` (names, units, rows, lengths), `data-package-no-hashing`
 *
 * Source: Data Package Standard 2.0 (datapackage.org); RFC 4180.
 */
export async function writeDataPackage(input: PackageInput): Promise<Map<string, Uint8Array>> {
  try {
    checkInput(input);
    const { info, recordings, results, keepFacts = false } = input;
    const files = new Map<string, Uint8Array>();
    const tables: Resource[] = [];
    if (results !== undefined) {
      const csv = resultsCsv(results);
      files.set('results.csv', csv);
      const schema = { fields: resultFields, missingValues: [''] };
      tables.push(await fileResource('results.csv', csv, { name: 'results', title: 'Results', type: 'table', schema }));
    }
    for (const { name, title, recording } of recordings) {
      const { csv, fields, description } = curveOf(recording, keepFacts);
      const described = parseDescription(JSON.parse(JSON.stringify(description)));
      if (!described.ok) throw bad(`"${name}" is not sound at ${described.path}.`, described.expected);
      const path = `recordings/${name}.csv`;
      files.set(path, csv);
      const schema = { fields, missingValues: [''] };
      const titled = title === undefined ? {} : { title };
      tables.push(await fileResource(path, csv, { name, ...titled, type: 'table', schema, recording: description }));
    }
    const readme = new TextEncoder().encode(readmeOf(info, tables, keepFacts));
    files.set('README.md', readme);
    const resources = [...tables, await fileResource('README.md', readme, { name: 'readme' })];
    const descriptor: Descriptor = { $schema: profile, ...info, resources };
    const problems = checkDescriptor(descriptor);
    if (problems[0] !== undefined)
      throw bad(`The description breaks a rule at ${problems[0].path}.`, problems[0].expected);
    const json = new TextEncoder().encode(`${JSON.stringify(descriptor, null, 2)}\n`);
    return new Map([['datapackage.json', json], ...files]);
  } catch (error) {
    if (error instanceof PackageFault) throw new WriteRefused(error.error satisfies FormatError);
    throw error;
  }
}

/** The same as one ZIP file. */
export async function writeDataPackageZip(input: PackageInput): Promise<Uint8Array> {
  return packFiles(await writeDataPackage(input));
}
