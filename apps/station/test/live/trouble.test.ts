import { liveRoutes, type RigTrouble, type RigView, routes } from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type StationUnderTest, stationUnderTest } from '../station-at.ts';
import { addRig, by, inLab, virtual } from './set-up.ts';

describe('trouble on virtual plates', () => {
  let station: StationUnderTest;
  let rig = '';
  const at = () => ({ params: { ...inLab, id: rig } });
  const see = () => station.ask(liveRoutes.rig, at());
  const cause = (trouble: RigTrouble) => station.ask(liveRoutes.troubleRig, { ...at(), body: { trouble, by } });
  const until = async (what: string, when: (view: RigView) => boolean): Promise<RigView> => {
    for (let i = 0; i < 600; i++) {
      const view = await see();
      if (when(view)) return view;
      await new Promise((done) => setTimeout(done, 50));
    }
    throw new Error(`never: ${what}: ${JSON.stringify(await see())}`);
  };
  beforeAll(async () => {
    station = await stationUnderTest();
    await station.ask(routes.createLab, { params: inLab, body: { name: 'Boathouse' } });
    rig = await addRig(station, 'A', virtual(1));
    await expect(cause('lost')).rejects.toMatchObject({ problem: { status: 409, code: 'rig-is-closed' } });
    await station.ask(liveRoutes.openRig, { ...at(), body: { by } });
  });
  afterAll(() => station?.end());

  it('is counted exactly as it was asked for, and shown while it lasts', async () => {
    await until('samples', ({ state }) => state === 'measuring');
    // Rates take some seconds to be known; the rest goes on meanwhile.
    await cause('wrong-rate');
    await cause('lost');
    expect((await until('a loss', ({ counts }) => counts.gaps === 1)).counts).toMatchObject({
      missing: 40,
      doubled: 0,
    });
    await cause('doubled');
    await until('doubled packets', ({ counts }) => counts.doubled === 3);
    await cause('late');
    const late = await until('late packets', ({ counts }) => counts.late === 2);
    expect(late.counts).toMatchObject({ gaps: 2, missing: 80, doubled: 3, late: 2, checksum: 0, unreadable: 0 });
    await cause('saturation');
    await until('a plate at its limit', ({ channels }) => channels[1]?.second?.saturated === true);
    await cause('unplug');
    await until('the loss of the device', ({ state }) => state === 'lost');
    const back = await until('its return', ({ state, counts }) => state === 'measuring' && counts.gaps === 3);
    expect(back.counts.missing).toBe(4080);
    expect(back.device).toBe('virtual');
    await cause('stall');
    await until('silence', ({ state }) => state === 'quiet');
    await until('samples again', ({ state, counts }) => state === 'measuring' && counts.missing === 6080);
    await until('the wrong rate', ({ rate }) => rate.differs);
  }, 90_000);

  it('is refused for plates that are real', async () => {
    const folder = await addRig(station, 'B', {
      schema: 'sthene.source/1',
      name: 'Folder',
      transport: { kind: 'folder', path: `${station.folder}/in` },
      channels: [],
      rate: 1000,
    });
    const there = { params: { ...inLab, id: folder } };
    await station.ask(liveRoutes.openRig, { ...there, body: { by } });
    await expect(station.ask(liveRoutes.troubleRig, { ...there, body: { trouble: 'lost', by } })).rejects.toMatchObject(
      { problem: { code: 'plates-are-real' } },
    );
    await station.ask(liveRoutes.closeRig, { ...there, body: { by } });
  });

  it('and every state of a source stays in its history', async () => {
    const [source] = await station.ask(liveRoutes.sources, { params: inLab });
    const description = { ...source!.description, notes: 'Moved to the window.' };
    await station.ask(liveRoutes.closeRig, { ...at(), body: { by } });
    const one = { params: { ...inLab, id: source!.id } };
    await station.ask(liveRoutes.changeSource, { ...one, body: { description, by } });
    const history = await station.ask(liveRoutes.sourceHistory, one);
    expect(history.map(({ number, by: who, description: { notes } }) => [number, who, notes])).toEqual([
      [2, by, 'Moved to the window.'],
      [1, by, source!.description.notes],
    ]);
  });
});
