import { createHash, randomInt, timingSafeEqual } from 'node:crypto';
import type { LabId, LiveRole, MadeCode, WaitingCode } from '@sthene/contract';

/** Digits and capitals without I, L, O and U: none is taken for another, and no word comes up by chance (Crockford's set). */
const signs = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';
/** 10 signs of 5 bits. */
export const codeLength = 10;
export const validFor = 10 * 60_000;
/** Codes that wait at the same time; the oldest goes. */
const most = 20;

interface Waiting extends WaitingCode {
  readonly lab: LabId;
  readonly hash: Buffer;
  readonly until: number;
  readonly by: string;
}

export interface UsedCode {
  readonly lab: LabId;
  readonly name: string;
  readonly role: LiveRole;
  readonly by: string;
}

/**
 * One-time codes, in memory only: a station that was started anew knows none. 50 bits, ten minutes: whoever tried a thousand
 * a second for that long would hit one with a chance of 1 in 1.8 thousand million.
 */
export class Codes {
  #waiting: Waiting[] = [];
  readonly #now: () => number;
  readonly #id: () => string;

  constructor(now: () => number, id: () => string) {
    this.#now = now;
    this.#id = id;
  }

  make(lab: LabId, draft: { readonly name: string; readonly role: LiveRole; readonly by: string }): MadeCode {
    const code = Array.from({ length: codeLength }, () => signs[randomInt(signs.length)]).join('');
    const until = this.#now() + validFor;
    const { name, role, by } = draft;
    const waiting = { id: this.#id(), name, role, expiresAt: new Date(until).toISOString() };
    this.#waiting = [...this.#fresh(), { ...waiting, lab, by, until, hash: hashOf(code) }].slice(-most);
    return { ...waiting, code, shown: `${code.slice(0, 5)}-${code.slice(5)}` };
  }

  /** Uses a code up. @returns what it stands for, or why it cannot be used */
  use(typed: string): UsedCode | 'code-wrong' | 'code-expired' {
    const hash = hashOf(plainCode(typed));
    // All are compared, each in the same time, so that the answer's delay tells nothing.
    const found = this.#waiting.filter((one) => timingSafeEqual(one.hash, hash))[0];
    if (found === undefined) return 'code-wrong';
    if (found.until <= this.#now()) return 'code-expired';
    this.#waiting = this.#waiting.filter((one) => one !== found);
    return { lab: found.lab, name: found.name, role: found.role, by: found.by };
  }

  withdraw(lab: LabId, id: string): boolean {
    const left = this.#waiting.filter((one) => one.lab !== lab || one.id !== id);
    const there = left.length < this.#waiting.length;
    this.#waiting = left;
    return there;
  }

  list(lab: LabId): WaitingCode[] {
    return this.#fresh()
      .filter((one) => one.lab === lab && one.until > this.#now())
      .map(({ id, name, role, expiresAt }) => ({ id, name, role, expiresAt }));
  }

  /** Expired ones stay a while, so that whoever comes late is told so and not that the code was wrong. */
  #fresh(): Waiting[] {
    return this.#waiting.filter(({ until }) => until + validFor > this.#now());
  }
}

/** What was typed as the sign that was meant. */
export const plainCode = (typed: string): string =>
  typed
    .toUpperCase()
    .replace(/[\s\-_.]/g, '')
    .replaceAll('O', '0')
    .replace(/[IL]/g, '1');

const hashOf = (code: string): Buffer => createHash('sha256').update(code).digest();
