import { spawn } from 'node:child_process';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { childEnvironment } from './child.ts';

/** The built station in a process of its own. */
export interface StationProcess {
  /** Address without a slash at the end. */
  readonly address: string;
  stop(): Promise<void>;
}

/** Starts `work/station.mjs` with a data folder and a built web app; the station ends with its input. */
export async function startStationProcess(data: string, web: string): Promise<StationProcess> {
  const script = fileURLToPath(new URL('work/station.mjs', import.meta.url));
  const child = spawn(process.execPath, [script, data, web], {
    env: childEnvironment(),
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const ended = new Promise<void>((done) => child.once('exit', () => done()));
  const first = await new Promise<string>((done, failed) => {
    createInterface({ input: child.stdout }).once('line', done);
    child.once('error', failed);
    child.once('exit', (code) => failed(new Error(`The station ended with ${code} before it was ready.`)));
  });
  const said = JSON.parse(first) as { address: string; code: string };
  if (!said.code.includes('/dist/')) throw new Error(`The station did not run compiled code but ${said.code}.`);
  return {
    address: said.address.replace(/\/$/, ''),
    async stop() {
      child.stdin.end();
      await ended;
    },
  };
}
