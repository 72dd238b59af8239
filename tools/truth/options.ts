import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { defaultMethod, type Method, methodRegistry, validateMethod } from '@sthene/core';
import { defaults, type PlanOptions } from './plan.ts';

export interface Options extends PlanOptions {
  readonly json: boolean;
  readonly docs: boolean;
  readonly method: Method;
}

export const usage = `Scores the checks and the onset of a method on simulated pulls whose truth is known.

  npm run truth -- [options]

  --pulls N            pulls of each kind (default ${defaults.pulls}; four times as many plain good ones)
  --seed N             first seed (default ${defaults.seed})
  --noise LIST         noise of each plate, SD in N (default ${defaults.noise.join(',')})
  --body-weight LIST   body mass in kg (default ${defaults.bodyWeight.join(',')})
  --rate HZ            sample rate (default ${defaults.rate})
  --method FILE|ID     method document or built-in method (default standard)
  --json               every pull with truth and verdict, as JSON
  --docs               writes docs/reference/truth-table.md
  --help

Ends with 0 when the three targets are met, 1 when one is missed, 2 when the options cannot be used.
`;

/** Options of the command line, or the words for what is wrong with them. */
export function optionsFrom(args: readonly string[]): Options | { readonly problem: string } {
  let values: Record<string, string | boolean | undefined>;
  try {
    values = parseArgs({
      args: [...args],
      options: {
        pulls: { type: 'string' },
        seed: { type: 'string' },
        noise: { type: 'string' },
        'body-weight': { type: 'string' },
        rate: { type: 'string' },
        method: { type: 'string' },
        json: { type: 'boolean' },
        docs: { type: 'boolean' },
      },
    }).values;
  } catch (error) {
    return { problem: (error as Error).message };
  }
  const problems: string[] = [];
  const list = (name: string, low: number, high: number, otherwise: readonly number[]): readonly number[] => {
    const text = values[name];
    if (typeof text !== 'string') return otherwise;
    const numbers = text.split(',').map((part) => (part.trim() === '' ? Number.NaN : Number(part)));
    if (numbers.every((x) => x >= low && x <= high)) return numbers;
    problems.push(`--${name}: expected numbers from ${low} to ${high} with commas between, got "${text}"`);
    return otherwise;
  };
  const one = (name: string, low: number, high: number, otherwise: number): number => {
    const [value, more] = list(name, low, high, [otherwise]);
    if (more !== undefined) problems.push(`--${name}: expected one number`);
    return value ?? otherwise;
  };
  const pulls = one('pulls', 1, 2500, defaults.pulls);
  const seed = one('seed', 0, 4000, defaults.seed);
  for (const [name, value] of [
    ['pulls', pulls],
    ['seed', seed],
  ] as const) {
    if (!Number.isInteger(value)) problems.push(`--${name}: expected a whole number, got ${value}`);
  }
  const noise = list('noise', 0, 50, defaults.noise);
  const bodyWeight = list('body-weight', 30, 250, defaults.bodyWeight);
  const rate = one('rate', 50, 10_000, defaults.rate);
  const method = methodFrom(values.method as string | undefined);
  if ('problem' in method) problems.push(method.problem);
  if (problems.length > 0 || 'problem' in method) return { problem: problems.join('\n') };
  return { pulls, seed, noise, bodyWeight, rate, method, json: values.json === true, docs: values.docs === true };
}

function methodFrom(name: string | undefined): Method | { readonly problem: string } {
  if (name === undefined) return defaultMethod;
  const builtIn = methodRegistry.get(name);
  if (builtIn) return builtIn.method;
  let document: unknown;
  try {
    document = JSON.parse(readFileSync(name, 'utf8'));
  } catch (error) {
    const known = methodRegistry.all.map(({ id }) => id).join(', ');
    return {
      problem: `--method: "${name}" is no built-in method (${known}) and cannot be read: ${(error as Error).message}`,
    };
  }
  const outcome = validateMethod(document);
  if (outcome.ok) return outcome.method;
  const words = outcome.problems.map(({ at, expected, found }) => `${at}: expected ${expected}, found ${found}`);
  return { problem: `--method: "${name}" is not a method\n  ${words.join('\n  ')}` };
}
