import { describe, expect, it } from 'vitest';
import type { Phase } from '../../src/engine/phase.ts';
import type { SamplesPacket } from '../../src/packets/packet.ts';
import { virtualPlates } from '../../src/sources/virtual/virtual-plates.ts';
import { stillClock } from './rig.ts';

const weights = [640, 860, 720];

/** Plates with three people, and what stands on them two and a half seconds after the engine said something. */
async function room() {
  const people = weights.map((weight) => ({ weight, strength: 1300, breathing: 0 }));
  const plates = virtualPlates({ id: 'rig', script: { people }, seed: 3, clock: stillClock });
  let load = 0;
  await plates.start((packet) => {
    if (packet.kind === 'samples') load = loadOf(packet);
  });
  const after = (phase: Phase, turn: number, person?: string) => {
    plates.notice({
      kind: 'phase',
      phase,
      turn,
      trial: 0,
      because: 'test',
      sample: plates.position,
      ...(person === undefined ? {} : { person }),
    });
    plates.run(plates.position + 4500);
    // whose body weight this is; nobody's: 0
    return weights.find((weight) => Math.abs(load - weight) < 15) ?? (Math.abs(load) < 15 ? 0 : load);
  };
  return { plates, after };
}

const loadOf = ({ values, count }: SamplesPacket) => (values[count - 1] ?? 0) + (values[2 * count - 1] ?? 0);

describe('people who come without being called by name', () => {
  it('stay on the plates when the weighing tells who they are', async () => {
    const { plates, after } = await room();
    expect(after('zero', 1, 'walk-in-a')).toBe(0);
    expect(after('stand-still', 1, 'walk-in-a')).toBe(640);
    expect(after('set-up', 1, 'person-1')).toBe(640);
    await plates.stop();
  });

  it('come one after the other, and whoever waited longest comes again', async () => {
    const { plates, after } = await room();
    const came: number[] = [];
    for (let turn = 1; turn <= 5; turn++) {
      after('zero', turn, `walk-in-${turn}`);
      came.push(after('stand-still', turn, `walk-in-${turn}`));
      after('set-up', turn, `person-${((turn - 1) % 3) + 1}`);
      after('waiting', turn);
    }
    expect(came).toEqual([640, 860, 720, 640, 860]);
    await plates.stop();
  });

  it('are their own when they are called by name again', async () => {
    const { plates, after } = await room();
    for (const [turn, person, weight] of [
      [1, 'a', 640],
      [2, 'b', 860],
      [3, 'a', 640],
    ] as const) {
      after('zero', turn, person);
      expect(after('stand-still', turn, person)).toBe(weight);
      after('waiting', turn);
    }
    await plates.stop();
  });
});
