import { routes } from '@sthene/contract';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { simulatedFile } from './simulated-file.ts';
import { type StationUnderTest, stationUnderTest } from './station-at.ts';
import { feet, sway, threeAxesFile } from './three-axes-file.ts';

const lab = { lab: 'lab' as const };
let station: StationUnderTest;
beforeAll(async () => {
  station = await stationUnderTest();
  await station.ask(routes.createLab, { params: lab, body: { name: 'Boathouse' } });
});
afterAll(() => station.end());

async function imported(name: string, bytes: Uint8Array<ArrayBuffer>, kind: 'platform' | 'channel'): Promise<string> {
  const { id } = await station.ask(routes.upload, { params: lab, query: { name }, bytes });
  const inputs = (['left', 'right'] as const).map((part, index) => ({ from: { kind, index }, part }));
  const outcome = await station.ask(routes.import, {
    params: lab,
    body: {
      ...{ upload: id, onDuplicate: 'skip', by: 'Rowan', person: { create: { givenName: name, familyName: 'Alder' } } },
      mapping: { reading: {}, inputs, test: 'imtp', efforts: 'largest' },
    },
  });
  return outcome.trials[0]?.id as string;
}

it('says where the force of a trial acts, plate by plate and together, as the file was made', async () => {
  const id = await imported('pull.c3d', await threeAxesFile(7), 'platform');
  const { axes, names, plates, combined } = await station.ask(routes.pressure, { params: { ...lab, id } });
  expect([axes, names]).toEqual(['laboratory', ['x', 'y']]);
  expect(plates.map(({ mirrored }) => mirrored)).toEqual([false, false]);
  expect(plates.map(({ name }) => name)).toEqual(['Plate 1', 'Plate 2']);
  for (const [k, { parts, outline }] of plates.entries()) {
    const [x, y] = feet[k === 0 ? 'left' : 'right'];
    expect(parts.map(({ of }) => of)).toEqual(['still', 'effort']);
    for (const { figures, points } of parts) {
      // x of the plate runs with that of the floor, y against it; the middle of the first plate lies at (200, 300).
      expect(Math.abs(figures.mean[0] - (200 + 410 * k + x))).toBeLessThan(0.5);
      expect(Math.abs(figures.mean[1] - (300 - y))).toBeLessThan(sway + 0.5);
      expect(figures.range[1]).toBeLessThanOrEqual(2 * sway + 0.5);
      expect(points.length).toBeLessThanOrEqual(300);
      expect(points.filter((one) => one === null)).toEqual([]);
    }
    expect(outline?.[0]).toEqual([410 * k + 400, 0]);
  }
  // The effort lasts longer than one way to and fro.
  expect(plates[0]?.parts[1]?.figures.range[1]).toBeGreaterThan(2 * sway - 1);
  const still = combined?.[0]?.figures.mean[0] ?? 0;
  expect(still).toBeGreaterThan(230);
  expect(still).toBeLessThan(585);
});

it('says nothing of a recording that has forces alone', async () => {
  const id = await imported('pull.csv', (await simulatedFile(8)).bytes as Uint8Array<ArrayBuffer>, 'channel');
  expect(await station.ask(routes.pressure, { params: { ...lab, id } })).toEqual({
    axes: 'plate',
    names: ['x', 'y'],
    plates: [],
  });
  await expect(station.ask(routes.pressure, { params: { ...lab, id: 'none' } })).rejects.toMatchObject({
    problem: { code: 'not-found' },
  });
});
