import type { SourceProblem, SourceProblemCode } from './problem.ts';

type Fields = Readonly<Record<string, unknown>>;

/** Reads values of unknown JSON and collects what is wrong, so that a person sees all of it at once. */
export class Reader {
  readonly problems: SourceProblem[] = [];

  problem(
    code: SourceProblemCode,
    at: string,
    message: string,
    more: { expected?: string; found?: unknown } = {},
  ): void {
    const { expected, found } = more;
    this.problems.push({
      code,
      at,
      ...(expected === undefined ? {} : { expected }),
      ...(found === undefined ? {} : { found: shown(found) }),
      message,
    });
  }

  /** The fields of an object, of which only those named may be there. */
  object(value: unknown, at: string, known: readonly string[]): Fields | undefined {
    if (typeof value !== 'object' || value === null || Array.isArray(value)) {
      this.problem('source-not-an-object', at, `${place(at)} has to be an object with fields.`, { found: value });
      return undefined;
    }
    for (const key of Object.keys(value)) {
      if (known.includes(key)) continue;
      this.problem(
        'source-field-unknown',
        `${at}/${key.replaceAll('~', '~0').replaceAll('/', '~1')}`,
        `No field has this name.`,
        {
          expected: known.join(', '),
          found: key,
        },
      );
    }
    return value as Fields;
  }

  text(fields: Fields, key: string, at: string, length: readonly [number, number] = [1, 200]): string {
    const value = this.#there(fields, key, at);
    if (value === undefined) return '';
    if (typeof value !== 'string') return this.#wrong(value, `${at}/${key}`, 'text', '');
    if (value.length < length[0] || value.length > length[1]) {
      this.#range(`${at}/${key}`, `${length[0]} to ${length[1]} characters`, `${value.length} characters`);
    }
    return value;
  }

  number(fields: Fields, key: string, at: string, low: number, high: number, whole = false): number {
    const value = this.#there(fields, key, at);
    if (value === undefined) return low;
    if (typeof value !== 'number' || Number.isNaN(value)) return this.#wrong(value, `${at}/${key}`, 'a number', low);
    if (!(value >= low && value <= high)) this.#range(`${at}/${key}`, `${low} to ${high}`, value);
    else if (whole && !Number.isSafeInteger(value)) this.#range(`${at}/${key}`, 'a whole number', value);
    return value;
  }

  choice<T extends string | number>(fields: Fields, key: string, at: string, choices: readonly T[]): T {
    const value = this.#there(fields, key, at);
    if (value !== undefined && !choices.includes(value as T)) {
      this.problem(
        'source-choice-unknown',
        `${at}/${key}`,
        `${place(`${at}/${key}`)} has to be one of: ${choices.join(', ')}.`,
        {
          expected: choices.join(', '),
          found: value,
        },
      );
    }
    return choices.includes(value as T) ? (value as T) : (choices[0] as T);
  }

  flag(fields: Fields, key: string, at: string): boolean {
    const value = this.#there(fields, key, at);
    return typeof value === 'boolean' ? value : this.#wrong(value, `${at}/${key}`, 'true or false', false);
  }

  /** Pairs of hexadecimal digits, blanks allowed between them. */
  hex(fields: Fields, key: string, at: string, bytes: readonly [number, number]): string {
    const value = this.text(fields, key, at, [0, 4 * bytes[1]]);
    const count = hexBytes(value)?.length;
    if (count === undefined || count < bytes[0] || count > bytes[1]) {
      this.problem(
        'source-hex-invalid',
        `${at}/${key}`,
        `${place(`${at}/${key}`)} has to be ${bytes[0]} to ${bytes[1]} bytes as pairs of hexadecimal digits.`,
        {
          expected: 'such as "a5 5a"',
          found: value,
        },
      );
    }
    return value;
  }

  list(fields: Fields, key: string, at: string, length: readonly [number, number]): readonly unknown[] {
    const value = this.#there(fields, key, at);
    if (value === undefined) return [];
    if (!Array.isArray(value)) return this.#wrong(value, `${at}/${key}`, 'a list', []);
    if (value.length < length[0] || value.length > length[1]) {
      this.#range(`${at}/${key}`, `${length[0]} to ${length[1]} entries`, `${value.length} entries`);
      return value.slice(0, length[1]);
    }
    return value;
  }

  /** A list of texts. */
  texts(fields: Fields, key: string, at: string, length: readonly [number, number]): string[] {
    return this.list(fields, key, at, length).map((one, i) => this.text({ [i]: one }, String(i), `${at}/${key}`));
  }

  #there(fields: Fields, key: string, at: string): unknown {
    if (Object.hasOwn(fields, key) && fields[key] !== undefined) return fields[key];
    this.problem('source-field-missing', `${at}/${key}`, `The field "${key}" is missing.`);
    return undefined;
  }

  #wrong<T>(value: unknown, at: string, expected: string, instead: T): T {
    if (value !== undefined)
      this.problem('source-type-wrong', at, `${place(at)} has to be ${expected}.`, { expected, found: value });
    return instead;
  }

  #range(at: string, expected: string, found: unknown): void {
    this.problem('source-value-out-of-range', at, `${place(at)} has to be ${expected}.`, { expected, found });
  }
}

const place = (at: string): string => (at === '' ? 'The description' : `"${at.slice(1).replaceAll('/', '.')}"`);

/** A found value short enough to show. */
function shown(value: unknown): string {
  const text =
    typeof value === 'string'
      ? value
      : typeof value === 'object' && value !== null
        ? 'an object or list'
        : String(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

/** Bytes written in hexadecimal; undefined when they are not. */
export function hexBytes(text: string): Uint8Array | undefined {
  const digits = text.replaceAll(/\s+/gu, '');
  if (digits.length % 2 !== 0 || !/^[0-9a-f]*$/iu.test(digits)) return undefined;
  return Uint8Array.from({ length: digits.length / 2 }, (_, i) => Number.parseInt(digits.slice(2 * i, 2 * i + 2), 16));
}
