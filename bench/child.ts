import { spawn, spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** What a child process said in its last line, and the ms from its start to its end. */
export interface ChildRun<T> {
  readonly wall: number;
  readonly said: T;
}

const script = (name: string): string => fileURLToPath(new URL(name, import.meta.url));

/** Environment of a measured process: no flags of ours, one core for numerical libraries. */
export const childEnvironment = (): NodeJS.ProcessEnv => {
  const { NODE_OPTIONS: _, ...rest } = process.env;
  return { ...rest, OMP_NUM_THREADS: '1', OPENBLAS_NUM_THREADS: '1', MKL_NUM_THREADS: '1' };
};

/** Runs `work/NAME.mjs` with plain node on the compiled packages. Throws when it measured anything else. */
export async function runNode<T>(name: string, args: readonly (string | number)[]): Promise<ChildRun<T>> {
  const run = await runChild<T & { code: string }>(process.execPath, [script(`work/${name}.mjs`), ...args.map(String)]);
  if (!run.said.code.includes('/dist/')) throw new Error(`${name} did not run compiled code but ${run.said.code}.`);
  return run;
}

/** Runs `reference/NAME.py`. */
export const runPython = <T>(python: string, name: string, args: readonly (string | number)[]): Promise<ChildRun<T>> =>
  runChild<T>(python, [script(`reference/${name}.py`), ...args.map(String)]);

/** An Rscript with lme4 and jsonlite; undefined where there is none. */
export function findR(): string | undefined {
  const asked = spawnSync('Rscript', ['-e', 'library(lme4); library(jsonlite)'], { encoding: 'utf8' });
  return asked.status === 0 ? 'Rscript' : undefined;
}

/** Runs `reference/NAME.R`. */
export const runR = <T>(rscript: string, name: string, args: readonly (string | number)[]): Promise<ChildRun<T>> =>
  runChild<T>(rscript, [script(`reference/${name}.R`), ...args.map(String)]);

function runChild<T>(command: string, args: readonly string[]): Promise<ChildRun<T>> {
  return new Promise((done, failed) => {
    const began = performance.now();
    const child = spawn(command, args, { env: childEnvironment(), stdio: ['ignore', 'pipe', 'pipe'] });
    let out = '';
    let err = '';
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      out += text;
    });
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      err += text;
    });
    child.once('error', failed);
    child.once('close', (code) => {
      const wall = performance.now() - began;
      if (code !== 0) failed(new Error(`${command} ${args[0]} ended with ${code}: ${err.slice(-2000)}`));
      else done({ wall, said: JSON.parse(out.trim().split('\n').at(-1) ?? '') as T });
    });
  });
}
