import type { UtcInstant } from '@sthene/core';
import { expect, it } from 'vitest';
import type { Store } from '../src/index.ts';
import { coach, onBothEngines } from './engines.ts';
import { imre, oneTrial } from './fernwater.ts';

const failing = (code: string) => expect.objectContaining({ name: 'StoreError', code });
const at = (day: string) => `${day}T08:00:00.000Z` as UtcInstant;
const film = Uint8Array.from({ length: 300_000 }, (_, i) => (i * 31) % 251);

async function rigAndPerson(store: Store) {
  const source = await store.sources.add({ name: 'Plates', description: {} }, coach);
  const rig = await store.rigs.add(
    { name: 'Boathouse', letter: 'A', shape: 'circle', sources: [source.id], notes: '' },
    coach,
  );
  const person = await store.people.add({ ...imre, code: 'FW-09' }, coach);
  return { rig: rig.id, person: person.id };
}

const newVideo = (id: string, of: { rig: string; person: string }, day = '2026-03-02') => ({
  ...of,
  id,
  device: 'tablet-1',
  filmedAt: at(day),
  mediaType: 'video/webm',
  facts: { frames: [0, 33.4], clock: [{ at: 1, offset: -20.25, uncertainty: 0.5 }] },
});

onBothEngines('videos', (place) => {
  it('come back as kept, also after a restart, and are found by their trial', async () => {
    const here = await place();
    const first = await here.open();
    const of = await rigAndPerson(first);
    const { trial } = await oneTrial(first);
    const begun = await first.videos.add(newVideo('video-01', of), coach);
    expect(begun).toMatchObject({ state: 'receiving', nudge: 0, byteCount: 0, revision: 1 });
    const { sha256, byteCount } = await first.files.put(film, 'webm');
    const stored = await first.videos.change(
      begun.id,
      { state: 'stored', sha256, byteCount, trial: trial.id, facts: { ...begun.facts, width: 1280 } },
      coach,
    );
    await first.close();
    const store = await here.open('b');
    expect(await store.videos.ofTrial(trial.id)).toEqual([stored]);
    expect(await store.videos.get('video-01')).toEqual(stored);
    expect(await store.videos.list({ state: 'receiving' })).toEqual([]);
    expect(await store.videos.list({ state: 'stored' })).toEqual([stored]);
    expect(await store.videos.list({ state: 'stored', trial: 'none' })).toEqual([]);
    const stray = await store.videos.add(newVideo('video-00', of), coach);
    expect(await store.videos.list({ state: 'receiving', trial: 'none' })).toEqual([stray]);
    await expect(store.videos.add(newVideo('video-01', of), coach)).rejects.toEqual(failing('already-there'));
    await expect(store.videos.add(newVideo('video-02', { ...of, person: 'nobody' }), coach)).rejects.toEqual(
      failing('refers-to-nothing'),
    );
    expect(await store.recordings.verify()).toEqual([]);
  });

  it('keep every place they were moved to', async () => {
    const store = await (await place()).open();
    const { id } = await store.videos.add(newVideo('video-03', await rigAndPerson(store)), coach);
    for (const nudge of [0.02, -0.013]) await store.videos.change(id, { nudge }, coach, { action: 'video.nudge' });
    const states = await store.revisions.of<{ nudge: number }>('video', id);
    expect(states.map(({ state }) => state.nudge)).toEqual([0, 0.02, -0.013]);
    expect((await store.audit.list({ subject: { kind: 'video', id } })).map(({ action }) => action)).toEqual([
      'video.nudge',
      'video.nudge',
      'video.add',
    ]);
    await expect(store.videos.change(id, { nudge: Number.NaN }, coach)).rejects.toEqual(failing('bad-value'));
  });

  it('leave a stone when dropped, and only the last of the same bytes takes the file away', async () => {
    const store = await (await place()).open();
    const of = await rigAndPerson(store);
    const { sha256, byteCount } = await store.files.put(film, 'webm');
    for (const [id, day] of [
      ['video-04', '2026-02-01'],
      ['video-05', '2026-03-01'],
    ] as const) {
      await store.videos.add(newVideo(id, of, day), coach);
      await store.videos.change(id, { state: 'stored', sha256, byteCount }, coach);
    }
    const old = await store.videos.list({ state: 'stored', before: at('2026-02-15') });
    expect(old.map(({ id }) => id)).toEqual(['video-04']);
    const dropped = await store.videos.drop('video-04', 'kept for 30 days', coach);
    expect(dropped).toMatchObject({ state: 'dropped', sha256, byteCount });
    expect(await store.files.has(sha256)).toBe(true);
    await store.videos.drop('video-05', 'asked for by the athlete', coach);
    expect(await store.files.has(sha256)).toBe(false);
    const [stone] = await store.audit.list({ subject: { kind: 'video', id: 'video-05' } });
    expect(stone).toMatchObject({ action: 'video.drop', by: coach.by });
    expect((await store.revisions.of('video', 'video-05')).at(-1)?.reason).toBe('asked for by the athlete');
    expect((await store.audit.verify()).intact).toBe(true);
    expect(await store.audit.verifyRecords()).toEqual([]);
    expect(await store.recordings.verify()).toEqual([]);
    // once more changes nothing
    expect(await store.videos.drop('video-05', 'again', coach)).toEqual(await store.videos.get('video-05'));
    await expect(store.videos.drop('video-99', 'x', coach)).rejects.toEqual(failing('not-found'));
  });

  it('are read in parts, without the rest', async () => {
    const store = await (await place()).open();
    const { sha256 } = await store.files.put(film, 'webm');
    const file = await store.files.open(sha256);
    expect(file).toMatchObject({ byteCount: film.length, extension: 'webm' });
    const read = async (range?: { first: number; last: number }) => {
      const parts: Uint8Array[] = [];
      for await (const piece of (await file?.pieces(range)) ?? []) parts.push(piece);
      return Uint8Array.from(Buffer.concat(parts));
    };
    expect(await read({ first: 299_990, last: 299_999 })).toEqual(film.subarray(299_990));
    expect(await read({ first: 7, last: 7 })).toEqual(film.subarray(7, 8));
    expect((await read()).length).toBe(film.length);
    expect(await store.files.open('0'.repeat(64))).toBeUndefined();
    expect(await store.files.remove('0'.repeat(64))).toBe(false);
    await store.files.remove(sha256);
    expect(await file?.pieces()).toBeUndefined();
  });

  it('whose file is gone are found by the check of files', async () => {
    const store = await (await place()).open();
    const { id } = await store.videos.add(newVideo('video-06', await rigAndPerson(store)), coach);
    const { sha256, byteCount } = await store.files.put(film, 'webm');
    await store.videos.change(id, { state: 'stored', sha256, byteCount }, coach);
    await store.files.remove(sha256);
    expect(await store.recordings.verify()).toEqual([{ sha256, problem: 'missing' }]);
  });
});
