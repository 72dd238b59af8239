import { expect, it } from 'vitest';
import { createEngine, type EngineInput } from '../../src/engine/index.ts';
import type { HeaderPacket } from '../../src/packets/packet.ts';
import { cue, ready, staged } from './acts.ts';
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

it('steps 16 channels at 5 kHz, in any phase, with well under 5 % of a core', () => {
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
  const run = () => {
    const engine = createEngine(stageConfig({}));
    engine.step({ kind: 'packet', packet: wide });
    let closing = 0;
    let closed = 0;
    const begun = process.cpuUsage();
    for (const input of inputs) {
      const before = process.cpuUsage();
      const out = engine.step(input);
      if (out.some(({ kind }) => kind === 'trial-closed')) {
        const used = process.cpuUsage(before);
        closing = (used.user + used.system) / 1e6;
        closed++;
      }
    }
    const used = process.cpuUsage(begun);
    return { share: (used.user + used.system) / 1e6 / (next / rate), closing, closed };
  };
  run();
  // The best of three: other work on the machine is not the engine's cost.
  const runs = [run(), run(), run()];
  const share = Math.min(...runs.map((r) => r.share));
  const closing = Math.min(...runs.map((r) => r.closing));
  expect(runs.every(({ closed }) => closed === 1)).toBe(true);
  console.log(
    `16 channels, ${rate} Hz: ${(100 * share).toFixed(2)} % of a core; verdict ${(1000 * closing).toFixed(0)} ms`,
  );
  expect(share).toBeLessThan(0.05);
  expect(closing).toBeLessThan(0.1);
}, 120_000);

it('judges a pull at 1 kHz within 50 ms', { retry: 2 }, () => {
  const times: number[] = [];
  for (let i = 0; i < 4; i++) {
    const stage = staged(athlete('p-wren'));
    ready(stage);
    cue(stage);
    const step = stage.engine.step.bind(stage.engine);
    let spent = 0;
    const timed = stage.engine as { step: typeof step };
    timed.step = (input) => {
      const before = process.cpuUsage();
      const out = step(input);
      const used = process.cpuUsage(before);
      if (out.some(({ kind }) => kind === 'trial-closed')) spent = (used.user + used.system) / 1000;
      return out;
    };
    stage.pull({}, 5 + i);
    expect(stage.closed).toHaveLength(1);
    times.push(spent);
  }
  console.log(`verdict at 1 kHz: ${times.map((ms) => ms.toFixed(1)).join(', ')} ms`);
  expect(Math.min(...times)).toBeLessThan(50);
});
