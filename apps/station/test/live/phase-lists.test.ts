import { jumpStages, phases } from '@sthene/capture';
import { jumpKind, jumpPhase, jumpStage, livePhase } from '@sthene/contract';
import { defaultMethod, forcesOf, foundJumps, protocolRegistry, recordingOfJumps, simulateJump } from '@sthene/core';
import { expect, it } from 'vitest';

// Packages that may not import each other write these lists twice; whoever adds a phase to one has to add it to the other.
it('phases and stages of a turn are the same where they are made and where they are sent, in the same order', () => {
  expect(livePhase.options).toEqual([...phases]);
  expect(jumpStage.options).toEqual([...jumpStages]);
});

it('phases of a judged jump are those that are sent, none missing and none more', () => {
  const tests = {
    countermovement: 'countermovement-jump',
    squat: 'squat-jump',
    drop: 'drop-jump',
    repeated: 'repeated-hops',
  } as const;
  const found = new Set<string>();
  for (const kind of jumpKind.options) {
    const protocol = protocolRegistry.get(tests[kind]);
    const forces = forcesOf(recordingOfJumps([simulateJump({ kind })]), {
      inputs: [
        { from: { kind: 'channel', index: 0 }, part: 'left' },
        { from: { kind: 'channel', index: 1 }, part: 'right' },
      ],
    });
    if (protocol === undefined || !forces.ok) throw new Error(kind);
    const { jumps } = foundJumps({
      ...{ forces: forces.value, protocol, method: defaultMethod, gravity: 9.80665, efforts: 'largest' },
    });
    if (!jumps.ok) throw new Error(jumps.reason);
    for (const { jump } of jumps.value) for (const { id } of jump.events.phases) found.add(id);
  }
  expect([...found].sort()).toEqual([...jumpPhase.options].sort());
});
