import { spawn } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import { listCaptures, nodeJournalPort, readCapture, reportOf } from '@sthene/capture';
import { analysedAgain, withStore } from '../../../apps/station/test/live/analysed-again.ts';
import { builtChild } from '../../built-child.ts';
import { type Campaign, must } from '../campaign.ts';
import { allOf, drawFrom } from '../ports.ts';

/** Sessions that run, and die, in one process. */
const sessions = 20;
/** How often they are killed in a round: sessions x lives instants. */
const lives = 10;
export const instantsPerRound = sessions * lives;

const script = () => builtChild(resolve(import.meta.dirname, 'session-child.ts'));

/** What one session told in one life, and all that it told before. */
interface Told {
  capture: string;
  safe: number;
  ready?: { readonly trials: readonly string[]; readonly notes: readonly string[]; readonly unfinished: number };
  readonly trials: string[];
  note: number;
  done: boolean;
}
const nothing = (): Told => ({ capture: '', safe: 0, trials: [], note: 0, done: false });

/** Runs the sessions until `end`, then kills them all at once. */
async function run(
  seed: number,
  people: string,
  folders: readonly string[],
  end: (told: readonly Told[]) => Promise<void>,
): Promise<Told[]> {
  const child = spawn(process.execPath, [await script(), String(seed), people, ...folders], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const told = folders.map(nothing);
  let rest = '';
  let errors = '';
  child.stdout.on('data', (piece: Buffer) => {
    const lines = (rest + piece.toString()).split('\n');
    rest = lines.pop() ?? '';
    for (const line of lines) take(told, line);
  });
  child.stderr.on('data', (piece: Buffer) => {
    errors += piece.toString();
  });
  const gone = new Promise<NodeJS.Signals | null>((done) => child.once('close', (_, signal) => done(signal)));
  await Promise.race([end(told), gone]);
  child.kill('SIGKILL');
  must((await gone) === 'SIGKILL', `the child ended by itself: ${errors}`);
  return told;
}

function take(told: readonly Told[], line: string): void {
  const [, n = '', what = '', json = ''] = /^(\d+) (\w+) (.*)$/.exec(line) ?? [];
  const one = told[Number(n)];
  if (one === undefined) return;
  const value: unknown = JSON.parse(json);
  if (what === 'ready') one.ready = value as NonNullable<Told['ready']>;
  else if (what === 'safe') [one.capture, one.safe] = value as [string, number];
  else if (what === 'trial') one.trials.push(value as string);
  else if (what === 'note') one.note = value as number;
  else if (what === 'done') one.done = true;
}

const pause = (ms: number) => new Promise<void>((done) => setTimeout(done, ms));

async function until(test: () => boolean, seconds: number): Promise<void> {
  for (const end = Date.now() + 1000 * seconds; !test(); await pause(5))
    must(Date.now() < end, `nothing more came for ${seconds} s`);
}

/** What is on disk after the kill, before anybody has touched it. @returns samples that were confirmed */
async function checkJournal(data: string, { capture, safe, trials }: Told): Promise<number> {
  if (safe === 0) return 0;
  const folder = join(data, 'lab', 'journal');
  for (const name of (await listCaptures(nodeJournalPort, folder)).reverse()) {
    const report = await reportOf(nodeJournalPort, folder, name);
    if (report.session !== capture) continue;
    must(
      !report.confirmedLost && report.counts.missing === 0,
      `${name}: ${JSON.stringify(report.lost)}, ${report.counts.missing} missing`,
    );
    must(report.counts.endSample >= safe, `${safe} samples were told safe, ${report.counts.endSample} are there`);
    let next = 0;
    let closed = 0;
    for (const packet of await allOf(readCapture(nodeJournalPort, folder, name))) {
      if (packet.kind === 'mark' && packet.label === 'trial closed') closed++;
      if (packet.kind !== 'samples') continue;
      const count = packet.values.subarray(packet.values.length - packet.count);
      for (let i = 0; i < packet.count; i++) must(count[i] === next++, `sample ${next - 1} is ${count[i]}`);
    }
    must(closed >= trials.length, `${trials.length} efforts were announced, ${closed} are in the journal`);
    return safe;
  }
  throw new Error(`the journal of ${capture} is not there`);
}

/** What the restarted station knows of what was told in all lives before. */
function checkKnown(before: Told, { ready }: Told): void {
  if (ready === undefined) return;
  for (const trial of before.trials) must(ready.trials.includes(trial), `the announced effort ${trial} is gone`);
  must(Number(ready.notes[0] || 0) >= before.note, `note ${before.note} was confirmed, ${ready.notes[0]} is there`);
}

/**
 * Sessions on virtual plates (journal, engine and store of the station itself) are killed at random instants, some while they still
 * recover from the kill before, and started again. At the end each day goes on to a further effort.
 */
export const sessionKill: Campaign = {
  promise: 1,
  name: 'session-kill',
  claim: `a session killed at a random instant keeps what it confirmed, and the day goes on (${instantsPerRound} instants a round)`,
  rounds: { short: 1, full: 25 },
  async round(seed) {
    const draw = drawFrom(seed);
    const root = await mkdtemp(join(tmpdir(), 'sthene-session-'));
    const people = join(root, 'people.txt');
    await writeFile(people, 'Wren,Alder,FW01\nHeron,Birch,FW02\nOtter,Cole,FW03\n');
    const folders = Array.from({ length: sessions }, (_, n) => join(root, `data-${n}`));
    const all = folders.map(nothing);
    let confirmed = 0;
    let instants = 0;
    const learn = async (told: readonly Told[]) => {
      for (const [n, one] of told.entries()) {
        const before = all[n] as Told;
        checkKnown(before, one);
        confirmed += await checkJournal(folders[n] as string, one);
        before.trials.push(...one.trials);
        before.note = Math.max(before.note, one.note);
      }
    };
    try {
      for (let life = 0; life < lives; life++) {
        const early = life > 0 && draw.chance(0.2);
        const told = await run(seed * 100 + life, people, folders, async (now) => {
          if (!early) await until(() => now.every(({ ready }) => ready !== undefined), 300);
          await pause(early ? draw.unit() * 1200 : draw.unit() * 2000);
        });
        await learn(told);
        instants += sessions;
      }
      await learn(
        await run(seed * 100 + 99, people, folders, (now) =>
          until(() => now.every(({ trials, done }) => trials.length > 0 || done), 300),
        ),
      );
      // What was announced in the last moment is kept by the next start.
      await learn(
        await run(seed * 100 + 98, people, folders, (now) =>
          until(() => now.every(({ ready }) => ready !== undefined), 300),
        ),
      );
      const trials = await checkStores(folders, all);
      return { instants, confirmed, efforts: trials };
    } finally {
      await rm(root, { recursive: true, force: true });
    }
  },
};

async function checkStores(folders: readonly string[], all: readonly Told[]): Promise<number> {
  let trials = 0;
  for (const [n, folder] of folders.entries()) {
    await withStore(folder, async (store) => {
      const checked = await analysedAgain(store);
      const ids = new Set(checked.map(({ id }) => id));
      for (const trial of all[n]?.trials ?? []) must(ids.has(trial), `the announced effort ${trial} is not stored`);
      for (const { id, stored, again } of checked)
        must(isDeepStrictEqual(again, stored), `${id} is analysed to something else`);
      const spans = checked.map(({ origin }) => `${origin.capture} ${origin.span.start}`);
      must(new Set(spans).size === spans.length, 'the same samples made two efforts');
      must((await store.audit.verify()).intact, 'the audit trail is broken');
      trials += checked.length;
    });
  }
  return trials;
}
