import { expect, it } from 'vitest';
import type { ClosedTrial } from '../../src/engine/index.ts';
import type { HeaderPacket, StreamChannel } from '../../src/packets/packet.ts';
import { calibrated } from '../../src/sources/calibration/calibrated.ts';
import type { CalibrationDescription } from '../../src/sources/description.ts';
import { closedOfSpread, onePull } from './spread.ts';
import { header, type Stage } from './stage.ts';

const sides = ['left', 'right'] as const;
const rate = 1000;

/** Two bridges under each of two plates; half of the force on each, in steps of the stage. */
const signals = (limit: number): StreamChannel[] =>
  sides.flatMap((side) =>
    ['front', 'rear'].map((place) => ({
      ...{ name: `${side} ${place}`, plate: side, side, axis: 'other' as const, unit: 'mV/V', scale: 1, offset: 0 },
      rawRange: [-limit, limit] as const,
    })),
  );
const calibration = sides.map(
  (side): CalibrationDescription => ({
    signals: [`${side} front`, `${side} rear`],
    matrix: [[1, 1]],
    channels: [{ name: side, plate: side, side, axis: 'z', unit: 'N' }],
  }),
);

/** The trials of a stage whose forces are made of signals. */
const closedOf = (stage: Stage, limit: number): ClosedTrial[] =>
  closedOfSpread(stage, { ...(header(rate) as HeaderPacket), channels: signals(limit) }, (emit) =>
    calibrated(calibration, emit),
  );

it('judges forces made of signals as it judges the plates themselves, and repeats where a signal was at its limit', () => {
  const stage = onePull(rate, 20);
  const [plain] = stage.closed;
  const peak = plain?.result.metrics.peak_force;
  if (plain === undefined || peak === undefined || !('value' in peak)) throw new Error('no pull on the stage');
  expect(peak.value).toBeGreaterThan(1500);

  const [ours, ...more] = closedOf(stage, 10_000);
  expect(more).toEqual([]);
  // Two halves add up to the same double.
  expect(ours?.result.metrics).toEqual(plain.result.metrics);
  expect(ours).toMatchObject({ span: plain.span, verdict: plain.verdict, reasons: plain.reasons });
  expect(ours?.zeros).toEqual(plain.zeros);

  // A quarter of the peak comes on each bridge; one that reads less than that is cut off at its end.
  const [cut] = closedOf(stage, peak.value / 4);
  expect(cut).toMatchObject({ verdict: 'repeat', reasons: expect.arrayContaining(['cell-at-limit']) });
});
