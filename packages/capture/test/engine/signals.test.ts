import { expect, it } from 'vitest';
import { type ClosedTrial, createEngine, type EngineInput } from '../../src/engine/index.ts';
import type { HeaderPacket, StreamChannel } from '../../src/packets/packet.ts';
import { calibrated } from '../../src/sources/calibration/calibrated.ts';
import type { CalibrationDescription } from '../../src/sources/description.ts';
import { cue, ready } from './acts.ts';
import { athlete, header, planOf, Stage, stageConfig } from './stage.ts';

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
function closedOf(stage: Stage, limit: number): ClosedTrial[] {
  const engine = createEngine(stageConfig({}));
  const closed: ClosedTrial[] = [];
  const tell = (input: EngineInput) => {
    for (const out of engine.step(input)) if (out.kind === 'trial-closed') closed.push(out.trial);
  };
  const hand = calibrated(calibration, (packet) => tell({ kind: 'packet', packet }));
  const opened: HeaderPacket = { ...header(rate), kind: 'header', channels: signals(limit) } as HeaderPacket;
  hand(opened);
  let next = 0;
  for (const happening of stage.happenings) {
    if ('input' in happening) {
      if (happening.input.kind !== 'packet') tell(happening.input);
      continue;
    }
    const { left, right } = happening.samples;
    const count = left.length;
    const values = new Float64Array(4 * count);
    for (const [c, plate] of [left, left, right, right].entries())
      for (let i = 0; i < count; i++) values[c * count + i] = plate[i]! / 2;
    hand({ kind: 'samples', first: next, count, values, at: 0n as never });
    next += count;
  }
  return closed;
}

it('judges forces made of signals as it judges the plates themselves, and repeats where a signal was at its limit', () => {
  const stage = new Stage({}, rate, 20);
  stage.wait(1.5);
  const who = athlete('p-wren');
  stage.order({ order: 'next-athlete', next: planOf(who, { warmUpDone: 2 }) });
  stage.untilPhase('stand-still', 3);
  stage.stepOn(who);
  stage.untilPhase('set-up', 10);
  ready(stage);
  cue(stage);
  stage.pull({}, 5);
  stage.wait(5);
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
