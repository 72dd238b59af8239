import { spawn } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { nodeJournalPort, readJournal, recover } from '@sthene/capture';
import { builtChild } from '../../built-child.ts';
import { type Campaign, must } from '../campaign.ts';
import { allOf, checkEncoded, drawFrom } from '../ports.ts';

/** The child as a script. */
export const killChildScript = (): Promise<string> => builtChild(resolve(import.meta.dirname, 'kill-child.ts'));

interface Told {
  readonly capture: string;
  readonly safe: number;
  readonly marks: readonly string[];
}

/** Runs a child and kills it so many milliseconds after it told that something is safe. */
async function runAndKill(folder: string, seed: number, after: number): Promise<Told> {
  const child = spawn(process.execPath, [await killChildScript(), folder, String(seed)], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let out = '';
  let errors = '';
  let timer: NodeJS.Timeout | undefined;
  child.stdout.on('data', (piece: Buffer) => {
    out += piece.toString();
    if (out.includes('safe')) timer ??= setTimeout(() => child.kill('SIGKILL'), after);
  });
  child.stderr.on('data', (piece: Buffer) => {
    errors += piece.toString();
  });
  const silent = setTimeout(() => child.kill('SIGKILL'), 120_000);
  const [code, signal] = await new Promise<[number | null, string | null]>((done) =>
    child.once('close', (...how: [number | null, string | null]) => done(how)),
  );
  clearTimeout(silent);
  clearTimeout(timer);
  must(signal === 'SIGKILL' && timer !== undefined, `the child ended by itself (${code}, ${signal}): ${errors}`);
  // A line cut off by the kill was not told.
  const lines = out.slice(0, out.lastIndexOf('\n')).split('\n');
  const words = (first: string) => lines.filter((l) => l.startsWith(`${first} `)).map((l) => l.slice(first.length + 1));
  return { capture: words('capture')[0] ?? '', safe: Number(words('safe').at(-1) ?? 0), marks: words('mark') };
}

/** A real process on a real disk, killed at random instants; restarted in the same folder, killed again. */
export const kill: Campaign = {
  promise: 1,
  name: 'kill',
  claim: 'a killed station loses no confirmed sample and no confirmed mark',
  rounds: { short: 20, full: 5000 },
  async round(seed) {
    const draw = drawFrom(seed);
    const folder = await mkdtemp(join(tmpdir(), 'sthene-kill-'));
    try {
      let confirmed = 0;
      let marks = 0;
      for (let life = 0; life < 1 + draw.below(2); life++) {
        const told = await runAndKill(folder, seed * 10 + life, draw.unit() * draw.unit() * 400);
        const found = (await recover(nodeJournalPort, folder)).find(({ capture }) => capture === told.capture);
        must(found !== undefined, `${told.capture} was not found as unfinished`);
        must(found?.lost.length === 0, `frames were lost: ${JSON.stringify(found?.lost)}`);
        const damaged = found?.segments.flatMap(({ bad }) => bad).filter(({ fault }) => fault === 'damaged') ?? [];
        must(damaged.length === 0, `damage: ${JSON.stringify(damaged)}`);
        const check = checkEncoded(await allOf(readJournal(nodeJournalPort, folder, told.capture)), 0);
        must(check.wrong === undefined, `${check.wrong}`);
        must(check.missing.size === 0, `${check.missing.size} samples missing`);
        must(check.received.size >= told.safe, `${told.safe} samples were told safe, ${check.received.size} are there`);
        for (const label of told.marks) must(check.marks.includes(label), `${label} was told safe and is not there`);
        // The journal's own mark of a stand-still may come often on a busy machine.
        const asked = check.marks.filter((label) => label !== 'station-stood-still');
        must(new Set(asked).size === asked.length, 'a mark is there twice');
        confirmed += told.safe;
        marks += told.marks.length;
      }
      return { confirmed, marks };
    } finally {
      await rm(folder, { recursive: true, force: true });
    }
  },
};
