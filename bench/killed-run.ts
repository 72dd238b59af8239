import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { childEnvironment } from './child.ts';

/** What was seen of a run until it was killed. */
export interface Killed {
  /** Trials it had reported as done. */
  readonly reported: number;
  /** ms it lived. */
  readonly lived: number;
}

/** Starts `work/archive.mjs judge` and kills it without warning once so many trials are reported as done. Throws when it ends before. */
export function killedRun(data: string, method: string, at: number): Promise<Killed> {
  const script = fileURLToPath(new URL('work/archive.mjs', import.meta.url));
  return new Promise((done, failed) => {
    const began = performance.now();
    const child = spawn(process.execPath, [script, 'judge', data, method], {
      env: childEnvironment(),
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    let reported = 0;
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      reported = Number(text.trim().split('\n').at(-1));
      if (reported >= at) child.kill('SIGKILL');
    });
    child.once('error', failed);
    child.once('close', (code, signal) => {
      if (signal === 'SIGKILL') done({ reported, lived: performance.now() - began });
      else failed(new Error(`The run ended by itself (${code}) before it could be killed at ${at} trials.`));
    });
  });
}
