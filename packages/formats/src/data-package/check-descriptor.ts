import { unsafePath } from './paths.ts';

/** A rule of the standard that a descriptor breaks, and where. */
export interface Problem {
  readonly path: string;
  readonly expected: string;
}

type Plain = Readonly<Record<string, unknown>>;
const isObject = (value: unknown): value is Plain =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isText = (value: unknown): value is string => typeof value === 'string' && value !== '';
const isUrl = (path: string): boolean => /^https?:\/\//.test(path);

function* checkSchema(schema: unknown, at: string): Generator<Problem> {
  if (typeof schema === 'string') return;
  if (!isObject(schema) || !Array.isArray(schema.fields) || schema.fields.length === 0) {
    yield { path: `${at}.schema`, expected: 'an object with fields' };
    return;
  }
  const names = new Set<string>();
  for (const [i, field] of schema.fields.entries()) {
    const name = isObject(field) ? field.name : undefined;
    if (!isText(name)) yield { path: `${at}.schema.fields[${i}]`, expected: 'a name' };
    else if (names.has(name)) yield { path: `${at}.schema.fields[${i}]`, expected: 'a name of its own' };
    else names.add(name);
  }
}

function* checkResource(resource: unknown, at: string): Generator<Problem> {
  if (!isObject(resource)) {
    yield { path: at, expected: 'an object' };
    return;
  }
  if (!isText(resource.name)) yield { path: `${at}.name`, expected: 'a name' };
  if ((resource.path === undefined) === (resource.data === undefined)) {
    yield { path: at, expected: 'exactly one of path and data' };
  }
  if (resource.path !== undefined) {
    const paths: unknown[] = Array.isArray(resource.path) ? resource.path : [resource.path];
    const safe = paths.every((path) => isText(path) && (isUrl(path) || unsafePath(path) === null));
    if (paths.length === 0 || !safe)
      yield { path: `${at}.path`, expected: 'a relative path below the package, or a URL' };
  }
  if (resource.schema !== undefined) yield* checkSchema(resource.schema, at);
}

function* checkList(
  value: unknown,
  at: string,
  sound: (entry: Plain) => boolean,
  expected: string,
): Generator<Problem> {
  if (value === undefined) return;
  if (!Array.isArray(value)) yield { path: at, expected: 'a list' };
  else
    for (const [i, entry] of value.entries())
      if (!isObject(entry) || !sound(entry)) yield { path: `${at}[${i}]`, expected };
}

/**
 * Checks a parsed `datapackage.json` against the standard's MUST rules.
 *
 * @returns nothing when it keeps them; otherwise each broken rule
 *
 * Source: Data Package Standard 2.0 (datapackage.org), as summarised in methods/jumps-and-plates.md section 6.1.
 */
export function checkDescriptor(value: unknown): Problem[] {
  if (!isObject(value)) return [{ path: '', expected: 'an object' }];
  const problems: Problem[] = [];
  const { resources, created } = value;
  if (!Array.isArray(resources) || resources.length === 0) {
    problems.push({ path: 'resources', expected: 'a list with at least one resource' });
  } else {
    const names = new Set<unknown>();
    for (const [i, resource] of resources.entries()) {
      problems.push(...checkResource(resource, `resources[${i}]`));
      const name = isObject(resource) ? resource.name : undefined;
      if (name !== undefined && names.has(name))
        problems.push({ path: `resources[${i}].name`, expected: 'a name of its own' });
      names.add(name);
    }
  }
  const some = (entry: Plain): boolean => Object.keys(entry).length > 0;
  const licensed = (entry: Plain): boolean => isText(entry.name) || isText(entry.path);
  problems.push(...checkList(value.licenses, 'licenses', licensed, 'a name or a path'));
  problems.push(...checkList(value.contributors, 'contributors', some, 'at least one property'));
  problems.push(...checkList(value.sources, 'sources', some, 'at least one property'));
  const instant = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(?:\.\d+)?(?:Z|[+-]\d\d:\d\d)$/;
  if (created !== undefined && !(isText(created) && instant.test(created))) {
    problems.push({ path: 'created', expected: 'an RFC 3339 date and time' });
  }
  return problems;
}
