import {
  checkPlan,
  defaultLimits,
  gravityOfPlace,
  judgeCheck,
  type LoadReading,
  loadDirections,
  massKnowledge,
  type ReferenceMass,
  type RigCheckDocument,
  readingOrigins,
  referenceForce,
  rigQuantities,
  rigVerdicts,
  shortfallCodes,
  spots,
} from '@sthene/core';
import { describe, expect, it } from 'vitest';
import {
  loadDirection,
  loadReading,
  loadSpot,
  referenceMass,
  rigCheckDocument,
  rigCheckResult,
  rigQuantity,
  rigVerdict,
} from './rig-check-result.ts';

const site = gravityOfPlace(52.3, 80);
const masses: readonly ReferenceMass[] = [1, 2].map((n) => ({
  ...{ id: `m${n}`, name: '20 kg', mass: 20, known: 'tolerance', within: 0.001, reference: 'M1', density: 7900 },
}));
const plates = ['left', 'right'];

/** A check in which everything is looked at that can be. */
const whole: RigCheckDocument = {
  ...{ schema: 'sthene.rig-check/1', plates, gravity: site, airDensity: 1.2, masses, limits: defaultLimits },
  corrected: [{ plate: 'left', gain: 1.001, offset: 0.1 }],
  readings: checkPlan({ plates, masses, series: 2, spots: true }).map(({ masses: on, ...step }): LoadReading => {
    const { force, uncertainty } = referenceForce(
      masses.filter(({ id }) => on.includes(id)),
      site,
    );
    return { ...step, load: force, loadUncertainty: uncertainty, reading: force + 0.1 * step.series, origin: 'typed' };
  }),
  rest: [{ plate: 'left', mean: 0, noise: 0.5, mains: [{ frequency: 50, amplitude: 0.1 }], drift: 0.2 }],
  taps: [{ plate: 'left', frequency: 210, resolution: 2, prominence: 9 }],
  balance: plates.map((plate, i) => ({ plate, weight: 800 + i })),
  cell: [0, 500, 1000].map((cell) => ({ cell, plates: 1.002 * cell })),
};

// What the schemas do not know they take away, so equal means that nothing of the core's is missing.
describe('the schemas of a check', () => {
  it('have everything of its document and its result', () => {
    expect(rigCheckDocument.parse(whole)).toEqual(whole);
    const result = judgeCheck(whole);
    expect(result.spots).toHaveLength(2);
    expect(result.cell && result.balance && result.uncertainty).toBeDefined();
    expect(rigCheckResult.parse(result)).toEqual(result);
    const empty = judgeCheck({ ...whole, readings: [], rest: [], taps: [], balance: [], cell: [] });
    expect(rigCheckResult.parse(empty)).toEqual(empty);
  });

  it('have its words, no more and no fewer', () => {
    expect(rigQuantity.options).toEqual([...rigQuantities]);
    expect(rigVerdict.options).toEqual([...rigVerdicts]);
    expect(loadSpot.options).toEqual([...spots]);
    expect(loadDirection.options).toEqual([...loadDirections]);
    expect(loadReading.shape.origin.options).toEqual([...readingOrigins]);
    expect(referenceMass.shape.known.options).toEqual([...massKnowledge]);
    expect(rigCheckResult.shape.shortfalls.element.shape.code.options).toEqual([...shortfallCodes]);
  });
});
