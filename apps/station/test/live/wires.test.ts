import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createRig, type SourceDescription } from '@sthene/capture';
import { routes } from '@sthene/contract';
import { afterEach, describe, expect, it } from 'vitest';
import { startStation } from '../../src/index.ts';
import type { HeadlessOptions } from '../../src/live/headless.ts';
import type { LivePorts } from '../../src/live/ports.ts';
import { stationPorts } from '../../src/live/station-ports.ts';
import { type StationUnderTest, stationUnderTest } from '../station-at.ts';
import type { CheckedTrial } from './analysed-again.ts';
import { LiveClient } from './live-client.ts';
import { jumpsFolder, jumpsRecordings, jumpsThere, recordedPlates, waited } from './recorded-plates.ts';
import { expectSameAgain } from './stored.ts';
import { lineDescription, twoPlates, wiredPlates } from './wired-plates.ts';
import { type Ends, type FarEnd, serial, tcp, type Wire } from './wires.ts';

const ends: Ends = [];
afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end();
});

const pulls = (count: number) => ({
  efforts: Array.from({ length: count }, () => ({ kind: 'maximal' as const })),
  rest: { minimum: 20, maximum: 600 },
});

/** As a real station, but plates that play faster than time are measured by their own clock. */
const ports: LivePorts = {
  ...stationPorts,
  createSource: (rig, descriptions) =>
    createRig(descriptions, { id: rig, clock: stationPorts.clock, rateBy: 'device' }),
};

/** A station that runs a day by itself, and somebody who looks on. */
async function headless(options: Omit<HeadlessOptions, 'handsFree'>): Promise<[StationUnderTest, LiveClient]> {
  const folder = mkdtempSync(join(tmpdir(), 'sthene-headless-'));
  ends.push(() => rmSync(folder, { recursive: true, force: true }));
  let given = options;
  if (options.people !== undefined) {
    const file = join(folder, 'people.txt');
    writeFileSync(file, options.people);
    given = { ...options, people: file };
  }
  const station = await stationUnderTest(join(folder, 'data'), { ...given, handsFree: true }, ports);
  ends.push(() => station.close());
  const viewer = await LiveClient.join(station.address, 'viewer', 'phone-1');
  ends.push(() => viewer.close());
  return [station, viewer];
}

const trialsSeen = (viewer: LiveClient) => new Set(viewer.of('verdict').map(({ verdict }) => verdict.trial)).size;

/** A session for each of three people who take turns. */
const session = {
  people: 'Wren, Alder, FW01, 1999-04-01\n# the second boat\nHeron, Birch, FW02\nOtter, Cole\n',
  plan: {
    efforts: [
      { kind: 'submaximal', share: 0.5 },
      { kind: 'submaximal', share: 0.75 },
      { kind: 'maximal' },
      { kind: 'maximal' },
    ],
    rest: { minimum: 20, maximum: 600 },
  },
} as const;
const codes = ['FW01', 'FW02', 'OC01'];

/** A station that runs a day by itself on plates at the far end of a wire. */
async function dayOver(
  wire: Wire,
  farEnd: FarEnd,
  options: Partial<HeadlessOptions>,
): Promise<[StationUnderTest, LiveClient]> {
  const { transport, write } = await wire(ends);
  const plates = farEnd(write);
  const [station, viewer] = await headless({ sources: [lineDescription('Plates on a wire', transport)], ...options });
  viewer.onMessage = (message) => plates.see(message);
  await plates.start();
  ends.push(() => void plates.stop());
  return [station, viewer];
}

const socat = spawnSync('socat', ['-V']).status === 0;
const noSocat = socat ? '' : ' (skipped: socat, which makes a pair of serial ports, is not installed)';
const noJumps = jumpsThere ? '' : ' (skipped: ../shared/data is not here)';
const wires = [
  { over: `over TCP`, wire: tcp, missing: '' },
  { over: `over a serial port`, wire: serial, missing: noSocat },
];

const submaximal = 'submaximal inside counts';
const each = [submaximal, submaximal, 'maximal counts', 'maximal counts'];

/** Efforts of each person in their order, with how they went. */
function effortsSeen(viewer: LiveClient): Record<string, string[]> {
  const efforts: Record<string, string[]> = {};
  for (const { verdict } of viewer.of('verdict')) {
    const { person, effort, closeness } = verdict;
    const where = closeness === undefined ? '' : ` ${closeness.where}`;
    efforts[person.code] = [...(efforts[person.code] ?? []), `${effort.kind}${where} ${verdict.verdict}`];
  }
  return efforts;
}

/** Whether everybody has done all of it. On a busy machine somebody may be so late for a cue that an effort more is asked for. */
const isWhole = (efforts: Record<string, string[]>): boolean =>
  codes.every((code) => {
    const count = (begins: string) => (efforts[code] ?? []).filter((one) => one.startsWith(begins)).length;
    return count('submaximal inside') === 2 && count('maximal counts') === 2;
  });

/** Efforts that are to be kept as what they were meant for. */
const held = (viewer: LiveClient): ReadonlySet<string> =>
  new Set(
    viewer
      .of('verdict')
      .filter(({ verdict: { effort, verdict, closeness } }) =>
        effort.kind === 'submaximal' ? closeness?.where === 'inside' : verdict === 'counts',
      )
      .map(({ verdict }) => verdict.trial),
  );

/** A station that watches an empty folder for text files with these columns of force. */
async function dayOfFiles(
  columns: Readonly<Record<'left' | 'right', string>>,
  plan: NonNullable<HeadlessOptions['plan']>,
) {
  const path = mkdtempSync(join(tmpdir(), 'sthene-watched-'));
  ends.push(() => rmSync(path, { recursive: true, force: true }));
  const source: SourceDescription = {
    schema: 'sthene.source/1',
    name: 'Watched folder',
    transport: { kind: 'folder', path, pattern: '*.csv' },
    channels: twoPlates(columns),
    rate: 1000,
  };
  const [station, viewer] = await headless({ sources: [source], ...session, plan });
  return { path, station, viewer };
}

const days = (viewer: LiveClient) => viewer.of('day').flatMap(({ day }) => day ?? []);

/** Code of the person of each entry. */
const codesOf = (viewer: LiveClient): ReadonlyMap<string, string> =>
  new Map(days(viewer).flatMap(({ entries }) => entries.map(({ id, person }) => [id, person.code] as const)));

/** Code of whose file is awaited once so many efforts are kept: who was called to the rig already, else who will be. */
async function nextAfter(viewer: LiveClient, efforts: number): Promise<string | undefined> {
  const last = () => days(viewer).at(-1);
  await viewer.until(() => last()?.entries.reduce((sum, one) => sum + one.efforts.length, 0) === efforts);
  const called = last()?.entries.find(({ state }) => state === 'on-rig')?.id;
  return codesOf(viewer).get(called ?? last()?.next[0]?.entry ?? '');
}

/** The same session once more, each effort as a file that another program writes. */
async function throughFolder(efforts: readonly CheckedTrial[], codeOf: ReadonlyMap<string, string>): Promise<void> {
  const { path, station, viewer } = await dayOfFiles(
    { left: 'left', right: 'right' },
    // Who is next must not change with the time that passes until the file is there.
    { ...session.plan, rest: { minimum: 0, maximum: 600 } },
  );
  const waiting = [...efforts].sort((a, b) => a.origin.span.start - b.origin.span.start);
  for (let i = 0; i < efforts.length; i++) {
    // Files come faster than people rest, so the order may be another one: each writes a file when it is their turn.
    const code = await nextAfter(viewer, i);
    const own = waiting.findIndex(({ origin }) => codeOf.get(origin.entry ?? '') === code);
    if (own < 0) throw new Error(`${code} is called and has no effort left`);
    const [effort] = waiting.splice(own, 1);
    const recording = effort?.recording;
    const [left, right] = ['left', 'right'].map((name) => recording?.channels.find((one) => one.name === name)?.raw);
    const rows = Array.from({ length: left?.length ?? 0 }, (_, n) => `${n / 1000},${left?.[n]},${right?.[n]}`);
    writeFileSync(join(path, `effort-${i}.csv`), ['time,left,right', ...rows, ''].join('\n'));
    await viewer.until(() => trialsSeen(viewer) > i, 90);
  }
  expect(effortsSeen(viewer)).toEqual({ FW01: each, FW02: each, OC01: each });
  await expectSameAgain(station.folder, 12);
}

/** Body weight that was found, N; NaN where none was. */
function weightIn(trial: CheckedTrial | undefined): number {
  const weight = trial?.stored.metrics.body_weight;
  return weight !== undefined && 'value' in weight ? weight.value : Number.NaN;
}

/** Where a piece of a signal is found first. */
function indexOf(signal: Float64Array, piece: Float64Array): number {
  const at = signal.findIndex((_, i) => piece.every((value, k) => signal[i + k] === value));
  if (at < 0) throw new Error('the signal does not hold the piece');
  return at;
}

describe('a session by itself over a wire', () => {
  for (const { over, wire, missing } of wires) {
    it.skipIf(missing !== '')(
      `${over}: three people take turns through two submaximal and two maximal efforts${missing}`,
      { timeout: 300_000 },
      async () => {
        const [station, viewer] = await dayOver(wire, (write) => wiredPlates(write), session);
        await viewer.until(() => isWhole(effortsSeen(viewer)), 250);
        const checked = await expectSameAgain(station.folder, trialsSeen(viewer));
        const page = await station.ask(routes.sessions, { params: { lab: 'lab' } });
        expect(page.rows.map(({ trials }) => Math.min(trials, 4))).toEqual([4, 4, 4]);
        if (wire === tcp)
          await throughFolder(
            checked.filter(({ id }) => held(viewer).has(id)),
            codesOf(viewer),
          );
      },
    );

    it.skipIf(missing !== '' || !jumpsThere)(
      `${over}: what others recorded is kept sample by sample, and no jump passes for a pull${missing || noJumps}`,
      { timeout: 300_000 },
      async () => {
        const recordings = jumpsRecordings();
        const [station, viewer] = await dayOver(wire, (write) => recordedPlates(write, recordings, codes), {
          people: session.people,
          // So that each of them comes before one comes twice.
          plan: { efforts: [{ kind: 'maximal' }], rest: { minimum: 600, maximum: 1200 } },
        });
        await viewer.until(() => trialsSeen(viewer) >= 3, 100);
        const verdicts = viewer.of('verdict').map(({ verdict }) => verdict);
        expect(verdicts.map(({ person, verdict }) => [person.code, verdict])).toEqual(
          codes.map((code) => [code, 'repeat']),
        );
        const checked = await expectSameAgain(station.folder, 3);
        for (const [i, { left, right, stance }] of recordings.entries()) {
          const [trial] = checked.filter(({ id }) => id === verdicts[i]?.trial);
          expect(weightIn(trial) / stance).toBeCloseTo(1, 2);
          const kept = (side: string) =>
            trial?.recording.channels.find(({ name }) => name === side)?.raw as Float64Array;
          // What comes before is also played forwards and backwards while they wait.
          const from = indexOf(kept('left'), left.subarray(2 * waited, 3 * waited)) - 2 * waited;
          const count = Math.min(left.length, kept('left').length - from);
          expect(count).toBeGreaterThan(2500);
          expect(kept('left').subarray(from, from + count)).toEqual(left.subarray(0, count));
          expect(kept('right').subarray(from, from + count)).toEqual(right.subarray(0, count));
        }
      },
    );
  }

  it('over a serial port: walk-ins are known by weight'.concat(noSocat), { timeout: 240_000 }, async (context) => {
    if (!socat) return context.skip();
    const [station, viewer] = await dayOver(serial, (write) => wiredPlates(write, 10), { plan: pulls(2) });
    const who = () => [
      ...new Map(viewer.of('verdict').map(({ verdict }) => [verdict.trial, verdict.person.name])).values(),
    ];
    // The first of them comes back, and is known again. On a busy machine an effort may be so late for its cue that it is made again.
    await viewer.until(() => who().includes('Walk-in 3') && who().at(-1) === 'Walk-in 1', 90);
    expect([...new Set(who())]).toEqual(['Walk-in 1', 'Walk-in 2', 'Walk-in 3']);
    const page = await station.ask(routes.sessions, { params: { lab: 'lab' } });
    expect(page.total).toBe(3);
    await expectSameAgain(station.folder, 4);
  });

  it.skipIf(!jumpsThere)(`through a watched folder: recordings of others${noJumps}`, { timeout: 240_000 }, async () => {
    // Right and left as SOURCE.md beside the recordings says; a long rest, so that each comes before one comes twice.
    const columns = { left: 'ground_force2_vy', right: 'ground_force1_vy' };
    const { path, station, viewer } = await dayOfFiles(columns, {
      efforts: [{ kind: 'maximal' }],
      rest: { minimum: 600, maximum: 1200 },
    });
    const files = readdirSync(jumpsFolder).filter((name) => name.endsWith('.csv'));
    expect(files.length).toBeGreaterThanOrEqual(3);
    for (const [i, name] of files.slice(0, 3).entries()) {
      copyFileSync(join(jumpsFolder, name), join(path, name));
      await viewer.until(() => trialsSeen(viewer) > i, 90);
    }
    const verdicts = viewer.of('verdict').map(({ verdict }) => verdict);
    expect(verdicts.map(({ person }) => person.code)).toEqual(codes);
    const checked = await expectSameAgain(station.folder, 3);
    for (const [i, { left, right }] of jumpsRecordings().entries()) {
      const trial = checked.find(({ id }) => id === verdicts[i]?.trial);
      const kept = (side: 'left' | 'right') =>
        trial?.recording.channels.find(({ name }) => name === columns[side])?.raw as Float64Array;
      expect(kept('left')).toEqual(left);
      expect(kept('right')).toEqual(right);
    }
  });

  it('says what is wrong with a description and starts nothing', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'sthene-headless-'));
    ends.push(() => rmSync(folder, { recursive: true, force: true }));
    const file = join(folder, 'plates.json');
    writeFileSync(file, '{"schema":"sthene.source/1","name":"x"}');
    const starting = startStation({
      port: 0,
      data: join(folder, 'data'),
      webFolder: join(folder, 'no-web'),
      headless: { sources: [file], handsFree: true },
    });
    await expect(starting).rejects.toMatchObject({ code: 'source-not-an-object', next: expect.any(String) });
  });
});
