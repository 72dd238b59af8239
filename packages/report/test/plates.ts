import {
  checkHistory,
  defaultLimits,
  gravityOfPlace,
  judgeCheck,
  type LoadReading,
  type ReferenceMass,
  type RigCheckDocument,
  referenceForce,
  spots,
  type UtcInstant,
} from '@sthene/core';
import type { PlatesInput } from '../src/index.ts';

const site = gravityOfPlace(52.3, 80);
const masses: readonly ReferenceMass[] = [1, 2, 3, 4, 5].map((n) => ({
  ...{ id: `m${n}`, name: `20 kg (${n})`, mass: 20, known: 'certificate', within: 0.0002, reference: 'FW-2026-03' },
}));

/** Left shows 1.2 % too much, right keeps 4 N coming down; from the definition alone. */
function readingsOf(plate: string, gain: number, sticks: number): LoadReading[] {
  return [1, 2, 3].flatMap((series) =>
    (['up', 'down'] as const).flatMap((direction) =>
      [0, 1, 2, 3, 4, 5].map((n): LoadReading => {
        const { force, uncertainty } = referenceForce(masses.slice(0, n), site);
        const stuck = direction === 'down' && n < 5 ? sticks : 0;
        return {
          ...{ plate, series, direction, spot: 'centre', load: force, loadUncertainty: uncertainty },
          ...{ reading: gain * force + stuck + 0.05 * series, sd: 0.6, origin: 'samples' },
        };
      }),
    ),
  );
}

const document: RigCheckDocument = {
  ...{ schema: 'sthene.rig-check/1', plates: ['left', 'right'], gravity: site, airDensity: 1.2, masses },
  ...{ limits: defaultLimits, corrected: [], taps: [], balance: [], cell: [] },
  readings: [...readingsOf('left', 1.012, 0), ...readingsOf('right', 1, 4)],
  rest: ['left', 'right'].map((plate) => ({
    ...{ plate, mean: 0, noise: 0.6, drift: 0.1, mains: [{ frequency: 50, amplitude: 0.05 }] },
  })),
};

const result = judgeCheck(document);

/** So many yearly checks of the club's plates that end with this one: the gain of the left one rises by 0.1 % a year. */
export const checksOf = (n: number) =>
  checkHistory(
    Array.from({ length: n }, (_, i) => {
      const years = n - 1 - i;
      const gain = (plate: string, now: number) => (plate === 'left' ? now - 0.001 * years : now);
      return {
        at: `${2026 - years}-03-02T09:15:00.000Z` as UtcInstant,
        document,
        result: {
          ...result,
          correction: result.correction.map((one) => ({ ...one, gain: gain(one.plate, one.gain) })),
          quantities: result.quantities.map((one) =>
            one.id === 'noise' ? { ...one, value: 0.6 + 0.05 * (i % 4) } : one,
          ),
        },
      };
    }),
  );

/** A check of the club's virtual plates. */
export const checkedPlates: PlatesInput = {
  rig: { name: 'Boathouse', letter: 'A' },
  sources: ['Virtual plates'],
  at: '2026-03-02T09:15:00.000Z',
  by: 'Rowan Vale',
  note: '',
  document,
  result,
  history: checksOf(1),
  sha256: 'c3'.repeat(32),
};

const twoMasses = referenceForce(masses.slice(0, 2), site);
const withPlaces: RigCheckDocument = {
  ...document,
  readings: [
    ...readingsOf('left', 1, 0),
    ...spots.map(
      (spot): LoadReading => ({
        ...{ plate: 'right', series: 1, direction: 'up', spot, load: twoMasses.force, sd: 0.6, origin: 'samples' },
        ...{ loadUncertainty: twoMasses.uncertainty, reading: (spot === 'back-left' ? 0.99 : 1) * twoMasses.force },
      }),
    ),
  ],
};

/** A check in which the right plate was read at five places, one corner 1 % weak. */
export const atFivePlaces: PlatesInput = {
  ...checkedPlates,
  document: withPlaces,
  result: judgeCheck(withPlaces),
};
