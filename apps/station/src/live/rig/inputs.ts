import type { Command, EngineInput } from '@sthene/capture';
import type { MonotonicNanoseconds } from '@sthene/core';

/** Label of the marks by which the journal holds what the engine was told besides packets. */
export const inputLabel = 'engine input';

/** Label of the mark that says, in a file's journal, whose turn it was. */
export const fileTurnLabel = 'file turn';

/** What a mark of an input carries: which test's engine, and the input with its times as text. */
export interface InputMark {
  readonly test: string;
  readonly input: unknown;
  /** Of a cue that sounded: who gave it and how well its time is known. The engine does not read it. */
  readonly how?: unknown;
}

/** An input as JSON; bigint times become text. */
export function inputMark(test: string, input: EngineInput): InputMark {
  return {
    test,
    input: JSON.parse(JSON.stringify(input, (_, value: unknown) => (typeof value === 'bigint' ? `${value}n` : value))),
  };
}

/** The input a mark carries; undefined where the mark is of something else. */
export function inputOf(data: unknown): { readonly test: string; readonly input: EngineInput } | undefined {
  const mark = data as InputMark | undefined;
  if (typeof mark?.test !== 'string' || typeof mark.input !== 'object') return undefined;
  const input = mark.input as EngineInput;
  if (input.kind !== 'command') return { test: mark.test, input };
  const { at, expires } = input.command as unknown as { at: string; expires: string | number };
  const command = {
    ...input.command,
    at: bigint(at),
    expires: typeof expires === 'string' ? bigint(expires) : expires,
  };
  return { test: mark.test, input: { kind: 'command', command: command as Command } };
}

const bigint = (text: string): MonotonicNanoseconds => BigInt(text.replace(/n$/, '')) as MonotonicNanoseconds;
