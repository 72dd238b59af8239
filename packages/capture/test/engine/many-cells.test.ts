import { expect, it } from 'vitest';
import { createEngine, type EngineInput } from '../../src/engine/index.ts';
import type { HeaderPacket } from '../../src/packets/packet.ts';
import { cue, ready } from './acts.ts';
import { athlete, header, planOf, Stage, stageConfig } from './stage.ts';

const rate = 5000;
const cells = 16;

/** Eight cells under each of two plates, 5 kHz. */
const wide: HeaderPacket = {
  ...header(rate),
  channels: Array.from({ length: cells }, (_, c) => ({
    name: `cell-${c}`,
    plate: c < cells / 2 ? 'left' : 'right',
    side: c < cells / 2 ? ('left' as const) : ('right' as const),
    axis: 'z' as const,
    unit: 'N',
    scale: 1,
    offset: 0,
    rawRange: [-2000, 2000] as const,
  })),
};

it('judges eight cells under each plate at 5 kHz as it judges the two plates', () => {
  // A whole turn on two plates is spread over their cells and played to an engine of its own.
  const stage = new Stage({}, rate, 100);
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
  expect(stage.closed).toHaveLength(1);

  const inputs: EngineInput[] = [];
  let next = 0;
  for (const happening of stage.happenings) {
    if ('input' in happening) {
      if (happening.input.kind !== 'packet') inputs.push(happening.input);
      continue;
    }
    const { left, right } = happening.samples;
    const values = new Float64Array(cells * left.length);
    for (let c = 0; c < cells; c++) {
      const plate = c < cells / 2 ? left : right;
      for (let i = 0; i < left.length; i++) values[c * left.length + i] = plate[i]! / (cells / 2);
    }
    inputs.push({
      kind: 'packet',
      packet: { kind: 'samples', first: next, count: left.length, values, at: 0n as never },
    });
    next += left.length;
  }
  const engine = createEngine(stageConfig({}));
  engine.step({ kind: 'packet', packet: wide });
  const closed = inputs
    .flatMap((input) => engine.step(input))
    .flatMap((out) => (out.kind === 'trial-closed' ? [out.trial] : []));
  expect(closed).toHaveLength(1);
  const [ours, theirs] = [closed[0], stage.closed[0]];
  expect(ours?.span).toEqual(theirs?.span);
  expect(ours?.result.verdict).toEqual(theirs?.result.verdict);
  // Eighths of a force are exact; only their sums round.
  const peak = (trial: typeof ours) => {
    const found = trial?.result.metrics.peak_force;
    return found !== undefined && 'value' in found ? found.value : Number.NaN;
  };
  expect(peak(theirs)).toBeGreaterThan(1500);
  expect(peak(ours)).toBeCloseTo(peak(theirs), 6);
}, 120_000);
