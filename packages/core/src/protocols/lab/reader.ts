import { rangeText } from './amount.ts';
import type { ProtocolFault, ProtocolFaultCode } from './fault.ts';
import { protocolField } from './fields.ts';

export type Fields = Readonly<Record<string, unknown>>;

/** Collects the faults of a document while it is read. */
export class Reader {
  readonly faults: ProtocolFault[] = [];

  add(code: ProtocolFaultCode, at: string, expected: string, found: unknown, words: string): void {
    this.faults.push({ code, at, expected, found: shown(found), words });
  }

  /** The members of an object with exactly these names; those in `free` may be left out. */
  object(value: unknown, at: string, names: readonly string[], free: readonly string[] = []): Fields | undefined {
    if (!isObject(value)) {
      this.add('protocol-not-an-object', at, 'an object', value, `${at || 'The document'} must be an object.`);
      return undefined;
    }
    for (const name of Object.keys(value)) {
      if (!names.includes(name) && !free.includes(name))
        this.add('protocol-field-unknown', join(at, name), names.join(', '), name, `"${name}" is no field here.`);
    }
    for (const name of names) {
      if (value[name] === undefined)
        this.add('protocol-field-missing', join(at, name), 'a value', undefined, 'Something must stand here.');
    }
    return value;
  }

  list(fields: Fields, name: string, at: string, most: number): readonly unknown[] {
    const value = fields[name];
    if (value === undefined) return [];
    const path = join(at, name);
    if (!Array.isArray(value)) {
      this.add('protocol-not-an-object', path, 'a list', value, `${path} must be a list.`);
      return [];
    }
    if (value.length > most)
      this.add('protocol-too-long', path, `at most ${most}`, value.length, `At most ${most} entries fit.`);
    return value;
  }

  text(value: unknown, at: string, most: number, mayBeEmpty = false): void {
    if (value === undefined) return;
    if (typeof value !== 'string') this.add('protocol-type-wrong', at, 'a text', value, 'This must be a text.');
    else if (!mayBeEmpty && value.trim() === '')
      this.add('protocol-empty', at, 'a text', value, 'Write something here.');
    else if (value.length > most)
      this.add('protocol-too-long', at, `at most ${most} letters`, value.length, `At most ${most} letters fit.`);
  }

  texts(fields: Fields, name: string, at: string, most: number, longest: number): void {
    for (const [i, entry] of this.list(fields, name, at, most).entries())
      this.text(entry, `${join(at, name)}.${i}`, longest);
  }

  flag(value: unknown, at: string): void {
    if (value !== undefined && typeof value !== 'boolean')
      this.add('protocol-type-wrong', at, 'true or false', value, 'This must be yes or no.');
  }

  choice(value: unknown, at: string, choices: readonly string[]): void {
    if (value === undefined || choices.includes(value as string)) return;
    this.add('protocol-choice-unknown', at, choices.join(', '), value, `This must be one of: ${choices.join(', ')}.`);
  }

  /** A number of the catalogue, within the limits written there. */
  number(value: unknown, at: string): void {
    const field = protocolField(at);
    if (field === undefined) throw new Error(`No field ${at}.`);
    if (value === undefined) return;
    const { low, high, whole = false, unit, why } = field;
    const range = rangeText(low, high, unit);
    if (typeof value !== 'number' || !Number.isFinite(value))
      this.add('protocol-type-wrong', at, whole ? 'a whole number' : 'a number', value, 'This must be a number.');
    else if (value < low || value > high) this.add('protocol-out-of-range', at, range, value, `From ${range}. ${why}`);
    else if (whole && !Number.isInteger(value))
      this.add('protocol-out-of-range', at, 'a whole number', value, 'This must be a whole number.');
  }
}

export const isObject = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
export const join = (at: string, name: string): string => (at === '' ? name : `${at}.${name}`);
const shown = (value: unknown): string => (value === undefined ? 'nothing' : JSON.stringify(value).slice(0, 80));
