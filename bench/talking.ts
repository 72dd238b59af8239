import { spawn } from 'node:child_process';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { childEnvironment } from './child.ts';

/** A child process that goes on and answers lines with lines of JSON. */
export interface Talking<T> {
  /** What it said first. */
  readonly said: T;
  ask<A>(line: string): Promise<A>;
  /** Ends its input and waits; what it said on leaving, if anything. */
  stop<A = unknown>(): Promise<A | undefined>;
}

/** Starts `work/NAME.mjs` with plain node on the compiled packages and waits for its first line. */
export async function startTalking<T>(
  name: string,
  args: readonly (string | number)[],
  flags: readonly string[] = [],
): Promise<Talking<T>> {
  const script = fileURLToPath(new URL(`work/${name}.mjs`, import.meta.url));
  const child = spawn(process.execPath, [...flags, script, ...args.map(String)], {
    env: childEnvironment(),
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const waiting: ((line: string | undefined) => void)[] = [];
  const lines: string[] = [];
  createInterface({ input: child.stdout }).on('line', (line) => {
    const next = waiting.shift();
    if (next === undefined) lines.push(line);
    else next(line);
  });
  const ended = new Promise<void>((done) => {
    child.once('close', () => {
      for (const wake of waiting.splice(0)) wake(undefined);
      done();
    });
  });
  child.stdin.on('error', () => {});
  const line = (): Promise<string | undefined> => {
    const there = lines.shift();
    if (there !== undefined) return Promise.resolve(there);
    return child.exitCode !== null ? Promise.resolve(undefined) : new Promise((done) => waiting.push(done));
  };
  const parsed = async (): Promise<unknown> => {
    const text = await line();
    if (text === undefined) throw new Error(`${name} ended with ${child.exitCode}.`);
    return JSON.parse(text);
  };
  const said = (await parsed()) as T & { code: string };
  if (!said.code.includes('/dist/')) throw new Error(`${name} did not run compiled code but ${said.code}.`);
  return {
    said,
    async ask<A>(question: string) {
      child.stdin.write(`${question}\n`);
      return (await parsed()) as A;
    },
    async stop<A>() {
      child.stdin.end();
      await ended;
      const last = lines.pop();
      return last === undefined ? undefined : (JSON.parse(last) as A);
    },
  };
}
