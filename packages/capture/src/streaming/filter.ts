import type { XmlElement } from './xml.ts';

type Value = string | number | boolean | undefined;

const longestFilter = 1024;
const deepest = 16;
const token =
  /\s*(?:(\d+(?:\.\d+)?)|"([^"]*)"|'([^']*)'|([A-Za-z_][\w-]*(?:\/[A-Za-z_][\w-]*)*)|(!=|<=|>=|[=<>(),]))/uy;

/** Names with brackets behind them. */
const functions = ['not', 'starts-with', 'contains', 'true', 'false'] as const;

class NotUnderstood extends Error {}

/**
 * Whether a stream info meets the condition of a query.
 *
 * Understood of XPath 1.0: paths of element names from the root's children on, texts, numbers, `=`, `!=`, `<`, `<=`, `>`, `>=`, `and`, `or`,
 * brackets, `not()`, `starts-with()`, `contains()`, `true()`, `false()`. A path is the text of its first element; one that is not there
 * equals nothing. Undefined for whatever else is asked: who does not understand a question does not answer it. The empty condition is met.
 */
export function meetsFilter(filter: string, root: XmlElement): boolean | undefined {
  if (filter.trim() === '') return true;
  if (filter.length > longestFilter) return undefined;
  try {
    return new Condition(filter, root).read();
  } catch (error) {
    if (error instanceof NotUnderstood) return undefined;
    throw error;
  }
}

interface Token {
  readonly kind: 'number' | 'text' | 'name' | 'sign' | 'end';
  readonly text: string;
}

class Condition {
  readonly #tokens: Token[] = [];
  readonly #root: XmlElement;
  #at = 0;
  #depth = 0;

  constructor(filter: string, root: XmlElement) {
    this.#root = root;
    token.lastIndex = 0;
    const text = filter.trimEnd();
    for (let at = 0; at < text.length; at = token.lastIndex) {
      token.lastIndex = at;
      const found = token.exec(text);
      if (found === null) throw new NotUnderstood();
      const [, number, double, single, name, sign] = found;
      if (number !== undefined) this.#tokens.push({ kind: 'number', text: number });
      else if (double !== undefined || single !== undefined)
        this.#tokens.push({ kind: 'text', text: double ?? single ?? '' });
      else if (name !== undefined) this.#tokens.push({ kind: 'name', text: name });
      else this.#tokens.push({ kind: 'sign', text: sign ?? '' });
    }
  }

  read(): boolean {
    const value = this.#or();
    if (this.#next.kind !== 'end') throw new NotUnderstood();
    return holds(value);
  }

  get #next(): Token {
    return this.#tokens[this.#at] ?? { kind: 'end', text: '' };
  }

  #is(kind: Token['kind'], text: string): boolean {
    if (this.#next.kind !== kind || this.#next.text !== text) return false;
    this.#at++;
    return true;
  }

  #must(sign: string): void {
    if (!this.#is('sign', sign)) throw new NotUnderstood();
  }

  #or(): Value {
    if (++this.#depth > deepest) throw new NotUnderstood();
    let value = this.#and();
    while (this.#is('name', 'or')) {
      const other = this.#and();
      value = holds(value) || holds(other);
    }
    this.#depth--;
    return value;
  }

  #and(): Value {
    let value = this.#compared();
    while (this.#is('name', 'and')) {
      const other = this.#compared();
      value = holds(value) && holds(other);
    }
    return value;
  }

  #compared(): Value {
    const value = this.#one();
    const sign = this.#next;
    if (sign.kind !== 'sign' || !/^(?:!?=|[<>]=?)$/u.test(sign.text)) return value;
    this.#at++;
    return compare(value, sign.text, this.#one());
  }

  #one(): Value {
    const { kind, text } = this.#next;
    this.#at++;
    if (kind === 'number') return Number(text);
    if (kind === 'text') return text;
    if (kind === 'sign' && text === '(') {
      const value = this.#or();
      this.#must(')');
      return value;
    }
    if (kind !== 'name') throw new NotUnderstood();
    if (this.#is('sign', '(')) return this.#call(text);
    return pathText(this.#root, text.split('/'));
  }

  #call(name: string): Value {
    if (!functions.includes(name as (typeof functions)[number])) throw new NotUnderstood();
    const given: Value[] = [];
    if (!this.#is('sign', ')')) {
      do given.push(this.#or());
      while (this.#is('sign', ','));
      this.#must(')');
    }
    const [a, b] = given;
    const needs = name === 'not' ? 1 : name === 'true' || name === 'false' ? 0 : 2;
    if (given.length !== needs) throw new NotUnderstood();
    if (name === 'not') return !holds(a);
    if (name === 'starts-with') return String(a ?? '').startsWith(String(b ?? ''));
    if (name === 'contains') return String(a ?? '').includes(String(b ?? ''));
    return name === 'true';
  }
}

/** Text of the first element on a path; undefined where there is none. */
function pathText(root: XmlElement, path: readonly string[]): string | undefined {
  let level: readonly XmlElement[] = root.children;
  for (const [i, name] of path.entries()) {
    const found: readonly XmlElement[] = level.filter((one) => one.name === name);
    if (i === path.length - 1) return found[0]?.text;
    level = found.flatMap((one) => one.children);
  }
  return undefined;
}

const holds = (value: Value): boolean =>
  typeof value === 'boolean' ? value : typeof value === 'number' ? value !== 0 : value !== undefined && value !== '';

function compare(a: Value, sign: string, b: Value): boolean {
  if (a === undefined || b === undefined) return false;
  const equal = typeof a === 'number' || typeof b === 'number' ? Number(a) === Number(b) : String(a) === String(b);
  switch (sign) {
    case '=':
      return equal;
    case '!=':
      return !equal;
    case '<':
      return Number(a) < Number(b);
    case '<=':
      return Number(a) <= Number(b);
    case '>':
      return Number(a) > Number(b);
    default:
      return Number(a) >= Number(b);
  }
}
