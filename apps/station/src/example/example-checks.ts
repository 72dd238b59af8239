import { virtualDescription } from '@sthene/capture';
import {
  checkPlan,
  defaultLimits,
  gravityOfPlace,
  judgeCheck,
  type LoadReading,
  type ReferenceMass,
  type RigCheckDocument,
  referenceForce,
  seededRandom,
  type UtcInstant,
  usualAirDensity,
} from '@sthene/core';
import { type OpenLab, stationActor } from '../labs/open-lab.ts';

const sourceName = 'Fernwater plates';

/** The boathouse of the invented club. */
const site = gravityOfPlace(52.3, 80);
const plates = ['left', 'right'] as const;

const masses: readonly ReferenceMass[] = [1, 2, 3, 4, 5].map((n) => ({
  ...{ id: `m${n}`, name: `20 kg (${n})`, mass: 20, known: 'certificate', within: 0.001 },
  reference: `Invented, FW-${n}`,
}));

/** What the plates were like each year: the left one drifts away, the right one begins to stick. */
const years: readonly { readonly at: string; readonly gain: number; readonly sticks: number; readonly note: string }[] =
  [
    { at: '2023-09-04T08:00:00.000Z', gain: 1.001, sticks: 0, note: 'Invented: after setting up.' },
    { at: '2024-09-02T08:00:00.000Z', gain: 1.0035, sticks: 0.2, note: 'Invented: yearly check.' },
    { at: '2025-09-01T08:00:00.000Z', gain: 1.012, sticks: 3, note: 'Invented: yearly check; the right plate sticks.' },
  ];

/** A rig of the club with three yearly checks, the last of which it does not pass; made once. */
export async function addExampleChecks(lab: OpenLab): Promise<void> {
  const { store } = lab;
  if ((await store.sources.list()).some(({ name }) => name === sourceName)) return;
  const description = JSON.parse(JSON.stringify(virtualDescription(sourceName, 'fernwater-worn', 5)));
  await store.transaction(async (inside) => {
    const source = await inside.sources.add({ name: sourceName, description }, stationActor);
    const rig = await inside.rigs.add(
      {
        ...{ name: 'Boathouse plates', letter: 'F', shape: 'square', sources: [source.id] },
        notes: 'Invented; virtual plates that measure wrong, to try the check with known masses on.',
      },
      stationActor,
    );
    for (const { at, note, ...plate } of years) {
      const document = checkOf(plate, Date.parse(at));
      const result = judgeCheck(document);
      await inside.rigChecks.add({ rig: rig.id, document, result, note, at: at as UtcInstant }, stationActor);
    }
  });
}

/** Readings as such plates would have given them, with the scatter of a real check. */
function checkOf(worn: { readonly gain: number; readonly sticks: number }, seed: number): RigCheckDocument {
  const random = seededRandom(seed % 2 ** 31, 31);
  const steps = checkPlan({ plates, masses, series: 3, spots: false });
  const readings = steps.map(({ masses: on, ...step }): LoadReading => {
    const { force, uncertainty } = referenceForce(
      masses.filter(({ id }) => on.includes(id)),
      site,
    );
    const left = step.plate === 'left';
    // A plate that sticks shows too little going up and too much coming down; empty before the first load it shows nothing.
    const play = step.direction === 'down' ? worn.sticks : force === 0 ? 0 : -worn.sticks;
    const shown = left ? worn.gain * force : force + play;
    return {
      ...{ ...step, load: force, loadUncertainty: uncertainty },
      ...{ reading: shown + 0.04 * random.gaussian(), sd: 0.6 + 0.02 * random.gaussian(), origin: 'samples' },
    };
  });
  const rest = plates.map((plate) => ({
    ...{ plate, mean: 0, noise: 0.6, drift: 0.1 * random.gaussian() },
    mains: [
      { frequency: 50, amplitude: 0.02 },
      { frequency: 60, amplitude: 0.02 },
    ],
  }));
  return {
    ...{ schema: 'sthene.rig-check/1', plates, gravity: site, airDensity: usualAirDensity, masses },
    ...{ limits: defaultLimits, corrected: [], readings, rest, taps: [], balance: [], cell: [] },
  };
}
