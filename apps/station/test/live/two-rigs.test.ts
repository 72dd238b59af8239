import { type Day, liveRoutes, routes, type ToOperator } from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type StationUnderTest, stationUnderTest } from '../station-at.ts';
import { LiveClient } from './live-client.ts';
import { lockstepPorts } from './lockstep.ts';
import { addPeople, by, inLab, virtual } from './set-up.ts';
import { expectSameAgain } from './stored.ts';

describe('two rigs in one room', () => {
  let station: StationUnderTest;
  let viewer: LiveClient;
  let wall: LiveClient;
  let rigs: string[];
  let day: Day;
  beforeAll(async () => {
    station = await stationUnderTest(undefined, undefined, lockstepPorts());
    await station.ask(routes.createLab, { params: inLab, body: {} });
    const people = await addPeople(station);
    rigs = [];
    for (const [letter, shape, seed] of [
      ['A', 'circle', 7],
      ['B', 'square', 8],
    ] as const) {
      const description = JSON.parse(JSON.stringify(virtual(1, 'fernwater-three', seed)));
      const source = await station.ask(liveRoutes.createSource, { params: inLab, body: { description, by } });
      const body = { name: `Rig ${letter}`, letter, shape, sources: [source.id], notes: '', by };
      rigs.push((await station.ask(liveRoutes.createRig, { params: inLab, body })).id);
    }
    const test = { test: 'imtp', efforts: [{ kind: 'maximal' as const }], rest: { minimum: 20, maximum: 600 } };
    day = await station.ask(liveRoutes.createDay, {
      params: inLab,
      body: { date: '2026-03-02', tests: [test], rigs, people, handsFree: true, by },
    });
    viewer = await LiveClient.join(station.address, 'viewer', 'phone-1');
    wall = await LiveClient.join(station.address, 'wall', 'wall-1');
    await station.ask(liveRoutes.openDay, { params: { ...inLab, id: day.id }, body: { by } });
  });
  afterAll(async () => {
    viewer?.close();
    wall?.close();
    await station.end();
  });

  it('run at once and keep every effort', { timeout: 200_000 }, async () => {
    await viewer.until(() => new Set(viewer.of('verdict').map(({ verdict }) => verdict.trial)).size >= 3, 180);
    const used = new Set(viewer.of('verdict').map(({ verdict }) => verdict.rig));
    expect([...used].sort()).toEqual([...rigs].sort());
    await expectSameAgain(station.folder, 3);
  });

  /** Every phase message in the order it was told, with the state of both rigs after it. */
  const states = () => {
    const now = new Map<string, Extract<ToOperator, { type: 'phase' }>['floor']>();
    return viewer.of('phase').map(({ floor }) => {
      now.set(floor.rig, floor);
      return new Map(now);
    });
  };

  it('never count or pull at the same time', () => {
    const cueing = states().map((now) => [...now.values()].filter(({ phase }) => phase === 'cue' || phase === 'pull'));
    expect(cueing.some((one) => one.length === 1)).toBe(true);
    expect(Math.max(...cueing.map((one) => one.length))).toBe(1);
    // They do work side by side otherwise.
    const both = states().some((now) => [...now.values()].filter(({ turn }) => turn !== undefined).length === 2);
    expect(both).toBe(true);
  });

  it('have nobody on both', () => {
    for (const now of states()) {
      const on = [...now.values()].flatMap(({ turn }) => (turn === undefined ? [] : [turn.person.id]));
      expect(new Set(on).size).toBe(on.length);
    }
  });

  it('sound for one rig each, which every sound names', () => {
    const sounds = viewer.of('cue');
    expect(new Set(sounds.map(({ rig }) => rig)).size).toBe(2);
    for (const rig of rigs) {
      const own = sounds.filter((one) => one.rig === rig).map(({ sound }) => sound);
      const go = own.indexOf('go');
      expect(own.slice(go - 3, go + 1)).toEqual(['three', 'two', 'one', 'go']);
    }
    // From the first number to the cue no sound of the other rig comes between.
    for (const [i, { rig, sound }] of sounds.entries())
      if (sound === 'go') expect(sounds.slice(i - 3, i).map((one) => one.rig)).toEqual([rig, rig, rig]);
  });

  it('show letter and shape on every screen', async () => {
    const views = await station.ask(liveRoutes.rigs, { params: inLab });
    expect(views.map(({ letter, shape }) => `${letter} ${shape}`).sort()).toEqual(['A circle', 'B square']);
    const walls = wall.walls.flatMap((one) => (one as { rigs?: { letter: string; shape: string }[] }).rigs ?? []);
    expect(new Set(walls.map(({ letter, shape }) => `${letter} ${shape}`))).toEqual(new Set(['A circle', 'B square']));
  });
});
