import { isIPv6 } from 'node:net';

interface Tries {
  readonly wrong: number;
  readonly again: number;
}

/** Wrong tries that cost nothing: fingers slip. */
const free = 4;
const longest = 60_000;
/** Addresses remembered; the one that was silent longest is forgotten. */
const most = 2_000;

/**
 * Makes guessing slow for whoever guesses, and for nobody else: each address has its own wait, doubling from a second to a
 * minute. There is no common limit that an attacker could use to keep everybody out.
 */
export class Throttle {
  readonly #now: () => number;
  readonly #tries = new Map<string, Tries>();

  constructor(now: () => number) {
    this.#now = now;
  }

  /** Seconds this address still has to wait; 0: it may try. */
  wait(address: string): number {
    const left = (this.#tries.get(blockOf(address))?.again ?? 0) - this.#now();
    return Math.max(0, Math.ceil(left / 1000));
  }

  /** @returns how often this address was wrong in a row */
  wrong(address: string): number {
    const block = blockOf(address);
    const wrong = (this.#tries.get(block)?.wrong ?? 0) + 1;
    const delay = wrong <= free ? 0 : Math.min(longest, 1000 * 2 ** (wrong - free - 1));
    this.#tries.delete(block);
    this.#tries.set(block, { wrong, again: this.#now() + delay });
    const [oldest] = this.#tries.keys();
    if (this.#tries.size > most && oldest !== undefined) this.#tries.delete(oldest);
    return wrong;
  }

  right(address: string): void {
    this.#tries.delete(blockOf(address));
  }
}

/** One machine can take any address of its IPv6 network: the first 64 bits count. */
function blockOf(address: string): string {
  const mapped = /^::ffff:(\d+\.\d+\.\d+\.\d+)$/i.exec(address)?.[1];
  if (mapped !== undefined) return mapped;
  if (!isIPv6(address)) return address;
  const [head = '', tail] = address.split('::');
  const left = head.split(':');
  const right = tail === undefined ? [] : tail.split(':');
  const full = [...left, ...Array<string>(Math.max(0, 8 - left.length - right.length)).fill('0'), ...right];
  return full
    .slice(0, 4)
    .map((part) => Number.parseInt(part || '0', 16).toString(16))
    .join(':');
}
