import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { builtChild } from '../../../../tests/built-child.ts';

/** Longest time that a station is waited for, ms. */
const patience = 150_000;

/**
 * A station in a process of its own that runs a day by itself, says what it does line by line, and is killed.
 *
 * @param people lines of a running order
 * @param more words for `killed-station.ts`
 */
export function killableStation<Said>(people: string, ...more: readonly string[]) {
  const folder = mkdtempSync(join(tmpdir(), 'sthene-kill-'));
  const data = join(folder, 'data');
  const order = join(folder, 'people.txt');
  writeFileSync(order, people);
  let child: ChildProcess | undefined;
  return {
    data,
    /** Starts the station, kills it when `when` says so, and gives back what it had said. */
    async run(when: (said: readonly Said[]) => boolean): Promise<Said[]> {
      const script = await builtChild(resolve(import.meta.dirname, 'killed-station.ts'));
      const one = spawn(process.execPath, [script, data, order, ...more], { stdio: ['ignore', 'pipe', 'inherit'] });
      child = one;
      const said: Said[] = [];
      let rest = '';
      const ended = new Promise<void>((done) => one.once('exit', () => done()));
      await new Promise<void>((done, failed) => {
        const late = setTimeout(
          () => failed(new Error(`the station said only ${JSON.stringify(said.slice(-5))}`)),
          patience,
        );
        one.stdout?.on('data', (piece: Buffer) => {
          rest += piece.toString();
          const lines = rest.split('\n');
          rest = lines.pop() ?? '';
          for (const line of lines) said.push(JSON.parse(line) as Said);
          if (!when(said)) return;
          clearTimeout(late);
          one.kill('SIGKILL');
          done();
        });
        one.once('exit', (code) => code !== null && failed(new Error(`the station ended with ${code}`)));
      });
      await ended;
      return said;
    },
    end(): void {
      child?.kill('SIGKILL');
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
