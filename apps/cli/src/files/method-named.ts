import { readFile } from 'node:fs/promises';
import {
  deriveMethod,
  type JumpMethod,
  jumpMethodRegistry,
  type Method,
  methodRegistry,
  type Protocol,
  validateMethod,
} from '@sthene/core';
import { exitCodes } from '../terminal/exit-codes.ts';
import { Failure } from '../terminal/failure.ts';

/**
 * A built-in method by its id, or a method document from a file. A baseline length other than the method's makes a derived
 * method, which is named and hashed as such.
 */
export async function methodNamed(name: string, baseline: number | undefined, protocol?: Protocol): Promise<Method> {
  const method = methodRegistry.get(name)?.method ?? (await fromFile(name));
  const seconds = baseline ?? protocol?.parameters?.baselineSeconds;
  if (seconds === undefined || seconds === method.window.baseline) return method;
  const derived = deriveMethod(method, { 'window.baseline': seconds });
  if (!derived.ok)
    throw new Failure(
      'baseline-not-usable',
      `A baseline of ${seconds} s cannot be used.`,
      'Give a length of up to 60 seconds.',
      exitCodes.usage,
    );
  return derived.method;
}

/**
 * A built-in jump method by its id; the usual one where the name is that of the usual method of other tests, as when none was given.
 */
export function jumpMethodNamed(name: string): JumpMethod {
  const method = jumpMethodRegistry.get(name === 'standard' ? 'jumps' : name)?.method;
  if (method !== undefined) return method;
  throw new Failure(
    'method-unknown',
    `There is no jump method "${name}".`,
    `Jump methods: ${jumpMethodRegistry.all.map(({ id }) => id).join(', ')}.`,
    exitCodes.usage,
  );
}

async function fromFile(path: string): Promise<Method> {
  const known = `Built-in methods: ${methodRegistry.all.map((one) => one.id).join(', ')}.`;
  let text: string;
  try {
    text = await readFile(path, 'utf8');
  } catch {
    throw new Failure(
      'method-unknown',
      `There is no method "${path}", neither built in nor as a file.`,
      known,
      exitCodes.usage,
    );
  }
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch (error) {
    throw new Failure(
      'method-not-json',
      `"${path}" is not a JSON document: ${(error as Error).message}.`,
      'Print one to copy with "sthene methods show standard --json".',
      exitCodes.inputInvalid,
    );
  }
  const checked = validateMethod(data);
  if (!checked.ok)
    throw new Failure(
      'method-invalid',
      `"${path}" is not a method: ${checked.problems.map((one) => `${one.at}: expected ${one.expected}, found ${one.found}`).join('; ')}.`,
      known,
      exitCodes.inputInvalid,
    );
  return checked.method;
}
