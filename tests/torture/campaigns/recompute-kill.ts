import { spawn } from 'node:child_process';
import { cp, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { methodReference, methodRegistry } from '@sthene/core';
import SqliteDatabase from 'better-sqlite3';
import { fillSmallLab, withLab } from '../../../apps/station/test/filled-lab.ts';
import { builtChild } from '../../built-child.ts';
import { type Campaign, must } from '../campaign.ts';
import { drawFrom } from '../ports.ts';

type End = 'adopt' | 'discard';

/** How often a run is killed before it is left alone. */
const lives = 5;

let prepared: Promise<Prepared> | undefined;

/** Removes the lab that the campaign built. */
export async function removePreparedLab(): Promise<void> {
  const there = await prepared?.catch(() => undefined);
  if (there !== undefined) await rm(there.root, { recursive: true, force: true });
  prepared = undefined;
}

interface Prepared {
  readonly root: string;
  /** A lab before any run; copied for each round. */
  readonly lab: string;
  /** Rows as they were before. */
  readonly old: string;
  /** What a run that nobody interrupted led to, and how long it took after it began, ms. */
  readonly whole: Readonly<Record<End, string>>;
  readonly took: number;
}

/** Builds the lab once, and the runs that nobody interrupts. */
async function prepare(): Promise<Prepared> {
  const root = await mkdtemp(join(tmpdir(), 'sthene-recompute-'));
  const lab = join(root, 'lab');
  await withLab(lab, (one) => fillSmallLab(one, 6));
  const whole = { adopt: '', discard: '' };
  let took = 0;
  for (const end of ['adopt', 'discard'] as const) {
    const folder = join(root, end);
    await cp(lab, folder, { recursive: true });
    const began = await live(folder, end);
    must(began.done, 'the run that nobody interrupts did not end');
    took = Math.max(took, began.took);
    whole[end] = inForceIn(folder);
  }
  must(whole.adopt !== whole.discard, 'the methods of the campaign judge alike');
  return { root, lab, old: oldRowsIn(lab), whole, took };
}

/** So many milliseconds after the child told that it begins, or that the run has ended and it adopts or discards. */
interface Kill {
  readonly told: 'begin' | 'end';
  readonly after: number;
}

/** Runs a child, and kills it at a given instant if it still lives. */
async function live(folder: string, end: End, kill?: Kill): Promise<{ done: boolean; took: number }> {
  const script = await builtChild(resolve(import.meta.dirname, 'recompute-child.ts'));
  const child = spawn(process.execPath, [script, folder, end], { stdio: ['ignore', 'pipe', 'pipe'] });
  let [out, errors, began, timer] = ['', '', 0, undefined as NodeJS.Timeout | undefined];
  child.stdout.on('data', (piece: Buffer) => {
    out += piece.toString();
    if (began === 0 && out.includes('begin')) began = performance.now();
    if (kill !== undefined && out.includes(kill.told)) timer ??= setTimeout(() => child.kill('SIGKILL'), kill.after);
  });
  child.stderr.on('data', (piece: Buffer) => {
    errors += piece.toString();
  });
  const [code, signal] = await new Promise<[number | null, string | null]>((done) =>
    child.once('close', (...how: [number | null, string | null]) => done(how)),
  );
  clearTimeout(timer);
  must(code === 0 || signal === 'SIGKILL', `the child ended by itself (${code}): ${errors}`);
  return { done: code === 0, took: performance.now() - began };
}

const read = (folder: string, text: string): unknown[] => {
  const database = new SqliteDatabase(join(folder, 'lab', 'sthene.sqlite'), { readonly: true });
  try {
    return database.prepare(text).all();
  } finally {
    database.close();
  }
};

/** Everything that was there before a run, byte for byte. */
const oldRowsIn = (folder: string): string =>
  JSON.stringify([
    read(folder, 'select * from results where run_id is null order by sequence'),
    read(
      folder,
      'select v.* from metric_values v join results r on r.id = v.result_id where r.run_id is null order by 1, 2',
    ),
    read(folder, 'select * from decisions order by sequence'),
    read(folder, 'select * from trials order by id'),
    read(folder, 'select * from sessions order by id'),
  ]);

/** What stands for each trial, and which method is the lab's; without ids and times, which differ from run to run. */
const inForceIn = (folder: string): string =>
  JSON.stringify([
    read(
      folder,
      `select trial_id, method_hash, verdict, document from results r where sequence = (
        select max(sequence) from results o where o.trial_id = r.trial_id and (o.run_id is null or exists (
          select 1 from recomputations c where c.id = o.run_id and c.state = 'adopted'))) order by trial_id`,
    ),
    read(folder, "select document from settings where key = 'analysis.method'"),
  ]);

async function check(folder: string, old: string): Promise<void> {
  must(oldRowsIn(folder) === old, 'what was there before the run has changed');
  const doubled = read(
    folder,
    'select trial_id from results where run_id is not null group by run_id, trial_id having count(*) > 1',
  );
  must(doubled.length === 0, `${doubled.length} trials were judged twice`);
  await withLab(folder, async ({ store }) => {
    must((await store.audit.verify()).intact, 'the audit trail is broken');
    const wrong = await store.audit.verifyRecords();
    must(wrong.length === 0, `records differ from the trail: ${JSON.stringify(wrong)}`);
    const [run] = await store.recomputations.list();
    const adopted = (await store.settings.get<string>('analysis.method'))?.value;
    const method = methodReference(methodRegistry.get('fixed-75')?.method as never).sha256;
    // Adopting is one act: the run's state and the lab's method go together or not at all.
    must((run?.state === 'adopted') === (adopted === method), `run ${run?.state}, method ${adopted}`);
  });
}

/** A lab is judged again and the run adopted or discarded, while the process is killed again and again. */
export const recomputeKill: Campaign = {
  promise: 20,
  name: 'recompute-kill',
  claim:
    'a recomputation killed at any instant changes nothing old, doubles and loses no trial, and ends as one nobody interrupted',
  rounds: { short: 1, full: 100 },
  async round(seed) {
    prepared ??= prepare();
    const { root, lab, old, whole, took } = await prepared;
    const draw = drawFrom(seed);
    const end: End = seed % 3 === 0 ? 'discard' : 'adopt';
    const folder = join(root, `round-${seed}`);
    await cp(lab, folder, { recursive: true });
    let kills = 0;
    try {
      for (let life = 0; ; life++) {
        // At first anywhere in the run, later in the moment in which it is adopted or discarded.
        const kill: Kill =
          life < 2 ? { told: 'begin', after: draw.unit() * took * 0.6 } : { told: 'end', after: draw.unit() * 25 };
        const { done } = await live(folder, end, life < lives ? kill : undefined);
        if (!done) kills++;
        await check(folder, old);
        if (done) break;
      }
      must(inForceIn(folder) === whole[end], 'the end differs from a run that nobody interrupted');
      return { kills };
    } finally {
      await rm(folder, { recursive: true, force: true });
    }
  },
};
