import { checkRegistry } from '../checks/index.ts';
import { metricRegistry } from '../metrics/index.ts';
import { onsetRegistry } from '../onset/index.ts';
import type { Method } from './method.ts';

/** What is wrong with a method document: permanent code, place, what was expected, what came. */
export interface MethodProblem {
  readonly code:
    | 'method-wrong-schema'
    | 'method-missing-field'
    | 'method-unknown-field'
    | 'method-wrong-type'
    | 'method-out-of-range'
    | 'method-unknown-onset-rule'
    | 'method-unknown-metric'
    | 'method-unknown-check'
    | 'method-unknown-limit'
    | 'method-unchanged'
    | 'method-name-reserved';
  /** Path from the top, as in `window.baseline`. */
  readonly at: string;
  readonly expected: string;
  readonly found: string;
}

/** A method, or everything that is wrong with it. */
export type MethodOutcome =
  | { readonly ok: true; readonly method: Method }
  | { readonly ok: false; readonly problems: readonly MethodProblem[] };

/**
 * The door for methods from outside: checks a parsed JSON document and returns it as a Method, or every problem it has.
 *
 * Unknown fields are refused, because a misspelt one would silently do nothing. Rules, metrics and checks must exist in the
 * version named.
 */
export function validateMethod(document: unknown): MethodOutcome {
  const reader = new Reader();
  const top = reader.fields(document, '', [...required, 'filter', 'derivedFrom'], required);
  if (top !== undefined) readMethod(reader, top);
  if (reader.problems.length > 0) return { ok: false, problems: reader.problems };
  return { ok: true, method: document as Method };
}

const required = [
  ...['schema', 'name', 'version', 'summary', 'onset', 'window'],
  ...['metrics', 'checks', 'set', 'allometricExponent'],
] as const;

type Fields = Readonly<Record<string, unknown>>;

function readMethod(reader: Reader, top: Fields): void {
  if ('schema' in top && top.schema !== 'sthene.method/1') {
    reader.add('method-wrong-schema', 'schema', 'sthene.method/1', top.schema);
  }
  reader.text(top, 'name', '');
  reader.text(top, 'summary', '');
  reader.number(top, 'version', '', 1, Number.MAX_SAFE_INTEGER, true);
  reader.number(top, 'allometricExponent', '', 0, 1);
  readFilter(reader, top.filter);
  readOnset(reader, top.onset);
  readWindow(reader, top.window);
  readMetrics(reader, top.metrics);
  readChecks(reader, top.checks);
  readSet(reader, top.set);
  readDerived(reader, top.derivedFrom);
}

function readFilter(reader: Reader, filter: unknown): void {
  if (filter === undefined) return;
  const fields = reader.fields(filter, 'filter', ['kind', 'cutoff']);
  if (fields === undefined) return;
  reader.choice(fields, 'kind', 'filter', ['butterworth-zero-lag']);
  reader.number(fields, 'cutoff', 'filter', Number.MIN_VALUE, 100_000);
}

function readOnset(reader: Reader, onset: unknown): void {
  const fields = onset === undefined ? undefined : reader.fields(onset, 'onset', ['rule', 'version']);
  if (fields === undefined) return;
  const rule = typeof fields.rule === 'string' ? onsetRegistry.get(fields.rule) : undefined;
  if (rule === undefined || !rule.automatic) {
    const ids = onsetRegistry.all.filter(({ automatic }) => automatic).map(({ id }) => id);
    reader.add('method-unknown-onset-rule', 'onset.rule', ids.join(', '), fields.rule);
  } else if (rule.version !== fields.version) {
    reader.add('method-unknown-onset-rule', 'onset.version', String(rule.version), fields.version);
  }
}

function readWindow(reader: Reader, window: unknown): void {
  const names = ['baseline', 'anchor', 'search', 'clearance'];
  const fields = window === undefined ? undefined : reader.fields(window, 'window', names);
  if (fields === undefined) return;
  for (const name of ['baseline', 'anchor', 'search']) reader.number(fields, name, 'window', Number.MIN_VALUE, 60);
  reader.number(fields, 'clearance', 'window', 0, 60);
}

function readMetrics(reader: Reader, metrics: unknown): void {
  if (metrics === undefined) return;
  for (const [id, version] of reader.entries(metrics, 'metrics')) {
    const known = metricRegistry.get(id);
    if (known?.version === version) continue;
    const expected = known ? `version ${known.version}` : 'a metric of this program';
    reader.add('method-unknown-metric', `metrics.${id}`, expected, version);
  }
}

function readChecks(reader: Reader, checks: unknown): void {
  if (checks === undefined) return;
  for (const [id, choice] of reader.entries(checks, 'checks')) {
    const at = `checks.${id}`;
    const fields = reader.fields(choice, at, ['version', 'limits']);
    if (fields === undefined) continue;
    const known = checkRegistry.get(id);
    if (known === undefined || known.version !== fields.version) {
      const expected = known ? `version ${known.version}` : 'a check of this program';
      reader.add('method-unknown-check', at, expected, fields.version);
      continue;
    }
    for (const [limit] of reader.entries(fields.limits, `${at}.limits`)) {
      const limits = fields.limits as Fields;
      if (!(limit in known.defaultLimits)) {
        const expected = Object.keys(known.defaultLimits).join(', ') || 'no limits';
        reader.add('method-unknown-limit', `${at}.limits.${limit}`, expected, limit);
      } else reader.number(limits, limit, `${at}.limits`, 0, 1e9);
    }
  }
}

function readSet(reader: Reader, set: unknown): void {
  const needed = ['summary', 'agreement', 'closesAfter'];
  const fields = set === undefined ? undefined : reader.fields(set, 'set', [...needed, 'agreementShare'], needed);
  if (fields === undefined) return;
  reader.choice(fields, 'summary', 'set', ['mean-all', 'mean-best-two', 'best']);
  reader.number(fields, 'agreement', 'set', 0, 1e6);
  reader.number(fields, 'closesAfter', 'set', 1, 1000, true);
  if (fields.agreementShare !== undefined) reader.number(fields, 'agreementShare', 'set', 0, 1);
}

function readDerived(reader: Reader, derived: unknown): void {
  if (derived === undefined) return;
  const fields = reader.fields(derived, 'derivedFrom', ['name', 'version', 'sha256', 'changes']);
  if (fields === undefined) return;
  reader.text(fields, 'name', 'derivedFrom');
  reader.number(fields, 'version', 'derivedFrom', 1, Number.MAX_SAFE_INTEGER, true);
  if (typeof fields.sha256 === 'string' && !/^[\da-f]{64}$/u.test(fields.sha256)) {
    reader.add('method-wrong-type', 'derivedFrom.sha256', '64 hexadecimal digits', fields.sha256);
  } else reader.text(fields, 'sha256', 'derivedFrom');
  for (const [path, value] of reader.entries(fields.changes, 'derivedFrom.changes')) {
    if (typeof value === 'string' || (typeof value === 'number' && Number.isFinite(value))) continue;
    reader.add('method-wrong-type', `derivedFrom.changes.${path}`, 'a number or a text', value);
  }
}

/** Collects problems while fields are read. */
class Reader {
  readonly problems: MethodProblem[] = [];

  add(code: MethodProblem['code'], at: string, expected: string, found: unknown): void {
    this.problems.push({ code, at, expected, found: shown(found) });
  }

  /** The members of an object that may have `allowed` and must have `needed`; undefined when it is no object. */
  fields(value: unknown, at: string, allowed: readonly string[], needed = allowed): Fields | undefined {
    if (!isObject(value)) {
      this.add('method-wrong-type', at, 'an object', value);
      return undefined;
    }
    for (const name of Object.keys(value)) {
      if (!allowed.includes(name)) this.add('method-unknown-field', join(at, name), allowed.join(', '), name);
    }
    for (const name of needed) {
      if (value[name] === undefined) this.add('method-missing-field', join(at, name), 'a value', undefined);
    }
    return value;
  }

  entries(value: unknown, at: string): [string, unknown][] {
    if (isObject(value)) return Object.entries(value);
    if (value !== undefined) this.add('method-wrong-type', at, 'an object', value);
    return [];
  }

  text(fields: Fields, name: string, at: string): void {
    const value = fields[name];
    if (value === undefined || (typeof value === 'string' && value.trim() !== '')) return;
    this.add('method-wrong-type', join(at, name), 'a text', value);
  }

  choice(fields: Fields, name: string, at: string, choices: readonly string[]): void {
    const value = fields[name];
    if (value === undefined || choices.includes(value as string)) return;
    this.add('method-out-of-range', join(at, name), choices.join(', '), value);
  }

  number(fields: Fields, name: string, at: string, low: number, high: number, whole = false): void {
    const value = fields[name];
    if (value === undefined) return;
    if (typeof value !== 'number' || !Number.isFinite(value)) {
      this.add('method-wrong-type', join(at, name), whole ? 'a whole number' : 'a number', value);
    } else if (value < low || value > high || (whole && !Number.isInteger(value))) {
      const kind = whole ? 'a whole number' : 'a number';
      const from = low === Number.MIN_VALUE ? 'above 0' : `from ${low}`;
      this.add('method-out-of-range', join(at, name), `${kind} ${from} to ${high}`, value);
    }
  }
}

const isObject = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const join = (at: string, name: string): string => (at === '' ? name : `${at}.${name}`);
const shown = (value: unknown): string => (value === undefined ? 'nothing' : JSON.stringify(value).slice(0, 80));
