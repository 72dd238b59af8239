import { type ClosedTrial, createEngine, type EngineInput, type EngineOutput } from '../../src/engine/index.ts';
import type { HeaderPacket, Packet } from '../../src/packets/packet.ts';
import { cue, ready } from './acts.ts';
import { athlete, planOf, Stage, stageConfig } from './stage.ts';

/** A stage of two plates on which one athlete made one pull. */
export function onePull(rate: number, packet: number): Stage {
  const stage = new Stage({}, rate, packet);
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
  return stage;
}

/**
 * What an engine of its own closes when the forces of a stage come spread evenly over several channels of each plate.
 *
 * @param opened channels of the left plate first, then as many of the right one
 * @param pass what lies between these channels and the engine
 */
export function closedOfSpread(
  stage: Stage,
  opened: HeaderPacket,
  pass: (emit: (packet: Packet) => void) => (packet: Packet) => void = (emit) => emit,
): ClosedTrial[] {
  const engine = createEngine(stageConfig({}));
  const outputs: EngineOutput[] = [];
  const tell = (input: EngineInput) => outputs.push(...engine.step(input));
  const hand = pass((packet) => tell({ kind: 'packet', packet }));
  const channels = opened.channels.length;
  hand(opened);
  let next = 0;
  for (const happening of stage.happenings) {
    if ('input' in happening) {
      if (happening.input.kind !== 'packet') tell(happening.input);
      continue;
    }
    const { left, right } = happening.samples;
    const count = left.length;
    const values = new Float64Array(channels * count);
    for (let c = 0; c < channels; c++) {
      const plate = c < channels / 2 ? left : right;
      for (let i = 0; i < count; i++) values[c * count + i] = plate[i]! / (channels / 2);
    }
    hand({ kind: 'samples', first: next, count, values, at: 0n as never });
    next += count;
  }
  return outputs.flatMap((out) => (out.kind === 'trial-closed' ? [out.trial] : []));
}
