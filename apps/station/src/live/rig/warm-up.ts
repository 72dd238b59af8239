import { analyseClosed, forcesOfSpan, type RecordedSpan, recordingOfSpan } from '@sthene/capture';
import { methodFor, type Protocol, simulateJump, simulatePull, standardGravity } from '@sthene/core';
import { formatOf } from '@sthene/formats';
import type { Recipes } from '../day/plan.ts';

let warm: Promise<void> | undefined;

/**
 * Judges and writes a made-up effort, in small steps and once in the life of the process, so that the code is compiled before the
 * first real one ends. Nothing of it is kept or told.
 */
export function warmUp(protocol: Protocol, recipes: Recipes): Promise<void> {
  // What goes wrong here goes wrong again, and is told, where it matters.
  warm ??= run(protocol, recipes).catch(() => {});
  return warm;
}

const pause = () => new Promise<void>((done) => setTimeout(done, 5));

async function run(protocol: Protocol, { method, jumpMethod }: Recipes): Promise<void> {
  const { jump } = protocol;
  const pull = jump === undefined ? simulatePull({ sampleRate: 1000 }, 1) : simulateJump({ kind: jump.kind }, 1);
  await pause();
  const recorded: RecordedSpan = {
    sampleRate: 1000,
    channels: (['left', 'right'] as const).map((side) => ({
      name: side,
      plate: side,
      side,
      axis: 'z',
      unit: 'N',
      scale: 1,
      offset: 0,
    })),
    raw: [pull.left, pull.right],
  };
  const forces = forcesOfSpan(recorded, {}, 'N');
  if (!forces.ok) return;
  const span = { start: 0, end: pull.left.length };
  const suited = methodFor(method, protocol);
  for (let i = 0; i < 3; i++) {
    await pause();
    analyseClosed(forces.value, { span, bodyWeight: 750 }, protocol, suited, standardGravity, jumpMethod);
  }
  const recording = recordingOfSpan(recorded);
  for (let i = 0; i < 2; i++) {
    await pause();
    await formatOf('parquet')?.write?.(recording);
  }
}
