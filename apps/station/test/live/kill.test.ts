import { join } from 'node:path';
import { listCaptures, nodeJournalPort, reportOf } from '@sthene/capture';
import { afterAll, expect, it } from 'vitest';
import { killableStation } from './killable.ts';
import { analysedAgain, withStore } from './stored.ts';

interface Said {
  readonly confirmed?: number;
  readonly trial?: string;
  readonly code?: string;
  readonly phase?: string;
  readonly done?: boolean;
  readonly ready?: string;
  readonly alerts?: readonly { readonly code: string; readonly words: string }[];
}

const station = killableStation<Said>('Wren,Alder,FW01\nHeron,Birch,FW02\nOtter,Cole,FW03\n');
afterAll(() => station.end());

const last = <K extends keyof Said>(said: readonly Said[], key: K) =>
  said.findLast((one) => one[key] !== undefined)?.[key];

// Instants to die at: in a stand-still, in the middle of a pull, right after a verdict, and somewhere.
const instants: readonly [string, (said: readonly Said[]) => boolean][] = [
  ['in a stand-still', (said) => last(said, 'phase') === 'stand-still' && said.length > 40],
  // A confirmation that comes after the pull began covers its beginning; before that nothing of it was promised.
  ['in a pull', (said) => last(said, 'phase') === 'pull' && said.at(-1)?.confirmed !== undefined],
  ['after a verdict', (said) => last(said, 'trial') !== undefined],
];

it('loses nothing it had confirmed, whenever it is killed, and goes on with the day', {
  timeout: 400_000,
}, async () => {
  const trials = new Set<string>();
  let confirmed = 0;
  for (const [where, when] of instants) {
    const said = await station.run(when);
    for (const one of said) if (one.trial !== undefined) trials.add(one.trial);
    const promised = Math.max(...said.map((one) => one.confirmed ?? 0));
    confirmed += promised;
    const journal = join(station.data, 'lab', 'journal');
    const newest = (await listCaptures(nodeJournalPort, journal)).at(-1) ?? '';
    const report = await reportOf(nodeJournalPort, journal, newest);
    expect(report.confirmedLost, where).toBe(false);
    expect(report.counts.endSample, where).toBeGreaterThanOrEqual(promised);
    expect(report.counts.missing, where).toBe(0);
  }
  expect(confirmed).toBeGreaterThan(10_000);
  const said = await station.run((all) => last(all, 'done') === true);
  for (const one of said) if (one.trial !== undefined) trials.add(one.trial);
  // What was recovered is named.
  expect(said.find((one) => one.alerts)?.alerts).toContainEqual({
    code: 'capture-recovered',
    words: expect.stringContaining('Nothing that is there is damaged'),
  });
  await withStore(station.data, async (store) => {
    const checked = await analysedAgain(store);
    for (const { stored, again } of checked) expect(again).toEqual(stored);
    const ids = new Set(checked.map(({ id }) => id));
    // Every announced trial is there, and the pull that was cut off too, named as such.
    for (const trial of trials) expect(ids).toContain(trial);
    const cut = checked.filter(({ origin }) => origin.facts.ended === 'signal-lost');
    expect(cut).toHaveLength(1);
    // The plan of each is done, under their own names. After a start the virtual people are dealt out anew, so that two bests of
    // one name may differ too much and the set ask for one more.
    const { items } = await store.sessions.list({ limit: 50 });
    expect(items.map(({ person }) => person.code).sort()).toEqual(['FW01', 'FW02', 'FW03']);
    for (const { trials: of } of items) expect(of.byStanding.counts).toBeGreaterThanOrEqual(2);
    // No samples make two trials.
    const spans = checked.map(({ origin }) => `${origin.capture} ${origin.span.start}`);
    expect(new Set(spans).size).toBe(spans.length);
    expect((await store.captures.list({ state: 'recovered' })).length).toBe(3);
    expect((await store.audit.verify()).intact).toBe(true);
  });
});
