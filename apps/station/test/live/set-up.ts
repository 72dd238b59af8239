import { type SourceDescription, virtualDescription } from '@sthene/capture';
import { liveRoutes, routes } from '@sthene/contract';
import type { StationUnderTest } from '../station-at.ts';

export const inLab = { lab: 'lab' as const };
export const by = 'Rowan';
/** Short rests, so that a day fits into a test. */
export const twoPulls = {
  test: 'imtp',
  efforts: [{ kind: 'maximal' as const }, { kind: 'maximal' as const }],
  rest: { minimum: 20, maximum: 600 },
};

/** People of the invented club, in the order the virtual plates know them. */
export const names = [
  ['Wren', 'Alder'],
  ['Heron', 'Birch'],
  ['Otter', 'Cole'],
] as const;

/** Adds the three of the club, with their screening on record. */
export async function addPeople(station: StationUnderTest): Promise<string[]> {
  const ids = [];
  for (const [givenName, familyName] of names) {
    const person = await station.ask(routes.createPerson, {
      params: inLab,
      body: { givenName, familyName, birthDate: '1999-04-01' },
    });
    await station.ask(liveRoutes.addGate, {
      params: { ...inLab, id: person.id },
      body: { kind: 'screening', granted: true, limb: 'both', from: '2026-01-01', note: '', by },
    });
    ids.push(person.id);
  }
  return ids;
}

export const virtual = (speed: number, script = 'fernwater-three', seed = 7): SourceDescription =>
  virtualDescription(`Virtual plates ${seed}`, script, seed, speed);

export async function addRig(
  station: StationUnderTest,
  letter: string,
  ...descriptions: SourceDescription[]
): Promise<string> {
  const sources = [];
  for (const description of descriptions) {
    const body = { description: JSON.parse(JSON.stringify(description)), by };
    sources.push((await station.ask(liveRoutes.createSource, { params: inLab, body })).id);
  }
  const rig = await station.ask(liveRoutes.createRig, {
    params: inLab,
    body: { name: `Rig ${letter}`, letter, shape: 'circle', sources, notes: '', by },
  });
  return rig.id;
}
