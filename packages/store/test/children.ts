import { type ChildProcess, spawn } from 'node:child_process';
import { resolve } from 'node:path';
import { afterAll } from 'vitest';
import { builtChild } from '../../../tests/built-child.ts';
import type { Place } from './engines.ts';

/** A child process with what it has said so far. */
export interface Child {
  readonly process: ChildProcess;
  /** Whole lines on stdout. */
  readonly lines: string[];
  /** Resolves once the child has said a line. */
  readonly said: (count: number) => Promise<void>;
  /** Resolves with its exit code, or the signal that ended it, and what it wrote to stderr. */
  readonly ended: Promise<{ readonly how: number | string; readonly errors: string }>;
}

const running = new Set<ChildProcess>();

/** Runs a TypeScript file of this folder in a process of its own. */
export async function startChild(file: string, ...parameters: string[]): Promise<Child> {
  const script = await builtChild(resolve(import.meta.dirname, file));
  const child = spawn(process.execPath, [script, ...parameters], { stdio: ['ignore', 'pipe', 'pipe'] });
  running.add(child);
  const lines: string[] = [];
  let rest = '';
  let errors = '';
  let wake = () => {};
  child.stdout.on('data', (data: Buffer) => {
    const parts = (rest + data.toString()).split('\n');
    rest = parts.pop() ?? '';
    lines.push(...parts);
    wake();
  });
  child.stderr.on('data', (data: Buffer) => {
    errors += data.toString();
  });
  const ended = new Promise<{ how: number | string; errors: string }>((resolve) => {
    child.once('close', (code, signal) => {
      running.delete(child);
      wake();
      resolve({ how: code ?? signal ?? 'unknown', errors });
    });
  });
  return {
    process: child,
    lines,
    ended,
    said: async (count) => {
      while (lines.length < count && running.has(child)) {
        await new Promise<void>((resolve) => {
          wake = resolve;
        });
      }
      if (lines.length < count) throw new Error(`The child ended after ${lines.length} lines: ${errors}`);
    },
  };
}

/** A writer on a place's database. */
export function startWriter(place: Place, name: string, count: number): Promise<Child> {
  return startChild('./writer-child.ts', JSON.stringify(place.engine), place.folder, name, `${count}`);
}

/** Ends what a failed test left running. */
export function endChildrenAfterAll(): void {
  afterAll(() => {
    for (const child of running) child.kill('SIGKILL');
  });
}
