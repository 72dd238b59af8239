import type { VirtualPlates } from '@sthene/capture';
import type { VirtualCheckAct } from '@sthene/contract';
import type { Spot } from '@sthene/core';
import { ProblemError, problems } from '../../server/problem-error.ts';
import type { LiveLab } from '../live-lab.ts';
import { documentOf, loadOf } from './draft-view.ts';
import { draftOf, measuring, mustMeasure } from './under-way.ts';

const sides = ['left', 'right'] as const;
type Side = (typeof sides)[number];

function virtualOf(live: LiveLab, id: string): VirtualPlates {
  const plates = mustMeasure(live, id).virtualPlates;
  if (plates !== undefined) return plates;
  throw new ProblemError(409, 'plates-are-real', 'These plates are real.', 'Do it yourself.');
}

function sideOf(plate: string): Side {
  const side = sides.find((one) => one === plate);
  if (side === undefined) throw problems.notFound('plate of this rig');
  return side;
}

function clear(plates: VirtualPlates): void {
  plates.stepOff();
  for (const side of sides) plates.putLoad(side, 0);
}

/** Whatever stands on virtual plates leaves them with the end of the check. */
export function clearVirtual(live: LiveLab, id: string): void {
  const plates = measuring(live, id)?.virtualPlates;
  if (plates !== undefined) clear(plates);
}

/** Lets masses be put on a place of a virtual plate, so that a check can be tried without any. */
export async function putMasses(
  live: LiveLab,
  id: string,
  { plate, spot, masses }: { readonly plate: string; readonly spot: Spot; readonly masses: readonly string[] },
): Promise<{ plate: string; kilograms: number }> {
  const document = documentOf(await draftOf(live, id));
  if (masses.some((id) => !document.masses.some((one) => one.id === id))) throw problems.notFound('mass of this check');
  const plates = virtualOf(live, id);
  const side = sideOf(plate);
  plates.stepOff();
  // The masses are those of the plate before.
  for (const other of sides) if (other !== side) plates.putLoad(other, 0);
  plates.putLoad(side, loadOf(document, { masses }).force, spot);
  const kilograms = masses.reduce((sum, one) => sum + (document.masses.find((m) => m.id === one)?.mass ?? 0), 0);
  return { plate, kilograms };
}

/** A tap, a person who stands still, a held pull: what else a check needs somebody for. The plates are emptied for it, but for a tap. */
export async function actOnVirtual(live: LiveLab, id: string, act: VirtualCheckAct): Promise<{ cell?: number }> {
  await draftOf(live, id);
  const plates = virtualOf(live, id);
  switch (act.kind) {
    case 'tap':
      plates.tap(sideOf(act.plate));
      return {};
    case 'stand':
      for (const side of sides) plates.putLoad(side, 0);
      plates.standOn(sideOf(act.plate));
      return {};
    case 'pull':
      clear(plates);
      // From the floor between the plates: each bears half of what the cell in the line carries.
      for (const side of sides) plates.putLoad(side, act.newtons / 2);
      return { cell: act.newtons };
    case 'clear':
      clear(plates);
      return {};
  }
}
