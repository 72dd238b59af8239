import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, rmSync, utimesSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { encodeChunk } from '@sthene/contract';
import type { UtcInstant } from '@sthene/core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { stationActor } from '../../src/labs/open-lab.ts';
import type { LiveLab } from '../../src/live/live-lab.ts';
import { ChunkFolder } from '../../src/video/chunk-folder.ts';
import { Station } from '../../src/work/station.ts';
import { filmAt } from './films.ts';

const refused = (code: string) => expect.objectContaining({ code });
const daysAgo = (days: number) => new Date(Date.now() - days * 86_400_000).toISOString() as UtcInstant;

describe('keeping videos', () => {
  let folder: string;
  let station: Station;
  let live: LiveLab;
  let of: { rig: string; person: string };
  const open = async () => {
    station = new Station({ data: folder, version: '0', application: 'sthene test' });
    live = await station.live('lab');
  };
  beforeEach(async () => {
    folder = mkdtempSync(join(tmpdir(), 'sthene-keeping-'));
    station = new Station({ data: folder, version: '0', application: 'sthene test' });
    await station.createLab('lab', 'Boathouse');
    live = await station.live('lab');
    const { store } = live.lab;
    const source = await store.sources.add({ name: 'Plates', description: {} }, stationActor);
    const rig = await store.rigs.add(
      { name: 'Rig A', letter: 'A', shape: 'circle', sources: [source.id], notes: '' },
      stationActor,
    );
    const person = await store.people.add({ code: 'FW01', givenName: 'Wren', familyName: 'Alder' }, stationActor);
    of = { rig: rig.id, person: person.id };
  });
  afterEach(async () => {
    await station.close();
    rmSync(folder, { recursive: true, force: true });
  });
  const begun = (id: string, filmedAt: UtcInstant) =>
    live.lab.store.videos.add(
      { ...of, id, device: 'tablet', filmedAt, mediaType: 'video/webm', facts: { turn: 't', startedAt: 1000 } },
      stationActor,
    );
  const pieces = (id: string, count: number) => {
    const film = filmAt('vp8', 1000);
    const chunks = new ChunkFolder(live.lab.folder, id);
    return Promise.all(
      film.slices.slice(0, count).map((slice, i) => {
        const bytes = encodeChunk({ frames: [...film.seen].slice(12 * i, 12 * i + 12) }, slice);
        return chunks.add(i, createHash('sha256').update(bytes).digest('hex'), bytes);
      }),
    );
  };
  const stored = async (id: string, filmedAt: UtcInstant) => {
    await begun(id, filmedAt);
    await pieces(id, 3);
    return live.videos.finishAsIs(id);
  };

  it('removes after the days the lab decided, with a stone in the audit trail, and nothing before', async () => {
    await stored('video-of-july', daysAgo(31));
    await stored('video-of-today', daysAgo(0));
    const trialOf = async (id: string) => live.lab.store.videos.get(id);
    expect((await trialOf('video-of-july'))?.state).toBe('stored');
    // no limit of days was decided; what shows no effort goes after a day
    expect(await live.videoKeeping.dropOld()).toBe(1);
    expect((await live.lab.store.revisions.of('video', 'video-of-july')).at(-1)?.reason).toBe(
      'no effort was found that it shows',
    );
    await live.lab.store.videos.change('video-of-today', { filmedAt: daysAgo(30.5) }, stationActor);
    await live.videos.changeSettings({ keepDays: 30, minors: 'with-consent' }, 'Rowan');
    expect(await live.videoKeeping.dropOld()).toBe(1);
    const states = await live.lab.store.revisions.of('video', 'video-of-today');
    expect(states.at(-1)?.reason).toBe('kept for 30 days, as the lab decided');
    const stones = await live.lab.store.audit.list({ subject: { kind: 'video' } });
    expect(stones.filter(({ action }) => action === 'video.drop')).toHaveLength(2);
    expect(await live.lab.store.recordings.verify()).toEqual([]);
    expect(await live.videoKeeping.dropOld()).toBe(0);
  });

  it('makes a film of what came from a device that fell silent, after a restart too', async () => {
    await begun('video-cut-off', daysAgo(0));
    await pieces('video-cut-off', 4);
    await live.videoKeeping.sweep();
    expect((await live.lab.store.videos.get('video-cut-off'))?.state).toBe('receiving');
    const chunks = join(live.lab.folder, 'videos', 'video-cut-off');
    for (const name of readdirSync(chunks))
      utimesSync(join(chunks, name), new Date(Date.now() - 200_000), new Date(Date.now() - 200_000));
    await station.close();
    await open();
    await expect
      .poll(async () => (await live.lab.store.videos.get('video-cut-off'))?.state, { timeout: 240_000 })
      .toBe('stored');
    const times = (await live.lab.store.videos.get('video-cut-off'))?.facts.times as number[];
    expect(times.length).toBeGreaterThan(20);
  });

  it('says that a film cannot be read instead of keeping what is none, and keeps no empty one', async () => {
    await begun('video-of-noise', daysAgo(0));
    const bytes = encodeChunk({ frames: [] }, Uint8Array.of(1, 2, 3));
    await new ChunkFolder(live.lab.folder, 'video-of-noise').add(
      0,
      createHash('sha256').update(bytes).digest('hex'),
      bytes,
    );
    expect((await live.videos.finish('video-of-noise', 1)).state).toBe('unreadable');
    await begun('video-of-nothing', daysAgo(0));
    expect((await live.videos.finish('video-of-nothing', 0)).state).toBe('dropped');
  });

  it('takes nothing more when the disk is nearly full, and goes on when there is room again', async () => {
    await begun('video-of-much', daysAgo(0));
    const bytes = encodeChunk({ frames: [] }, Uint8Array.of(1));
    const sha256 = createHash('sha256').update(bytes).digest('hex');
    const body = () =>
      (async function* () {
        yield bytes;
      })();
    live.videos.limits = { leastFree: 1000, free: async () => 999 };
    await expect(live.videos.addChunk('video-of-much', 0, sha256, body())).rejects.toEqual(refused('video-no-space'));
    live.videos.limits = { leastFree: 1000, free: async () => 1000 };
    expect((await live.videos.addChunk('video-of-much', 0, sha256, body())).received).toEqual([0]);
  });
});
