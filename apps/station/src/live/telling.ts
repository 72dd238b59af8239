import type { ClosedTrial } from '@sthene/capture';
import type { FloorSettings, RigFloor } from '@sthene/contract';
import { isMinor } from './day/gates.ts';
import type { EnvelopeRun } from './rig/envelope.ts';
import type { RunningTurn } from './turn.ts';

/**
 * How the forces of a rig are told. `total`: as measured. `above`: above standing. `hidden`: only whether something is on the
 * plates, because the force would be the weight.
 */
export type Telling =
  | { readonly forces: 'total' }
  | { readonly forces: 'above'; readonly weight: number }
  | { readonly forces: 'hidden' };

/** Above standing a force is told no further down than this, N: what is missing to empty plates would be the weight. */
const lowest = -150;
/** What is told of hidden forces, N: enough to see empty plates, and that someone stepped on. */
const most = 60;

/** Whether the body weight of a person may leave the station for the Floor. Who has no birth date on record is no known adult. */
export function weightMayShow(
  rule: FloorSettings['bodyWeight'],
  person: { readonly birthDate?: string | undefined },
  date: string,
): boolean {
  if (rule === 'everyone') return true;
  return rule === 'adults' && person.birthDate !== undefined && !isMinor({ birthDate: person.birthDate, date });
}

/** How the forces of a rig are told while this turn, or nobody's, is on it. */
export function tellingOf(turn: RunningTurn | undefined, phase: RigFloor['phase']): Telling {
  if (turn === undefined || turn.weightShown || turn.entry.protocol.load !== 'weight') return { forces: 'total' };
  // A height with the force above standing that made it would be the mass; the height is what a jump is about.
  if (turn.entry.protocol.jump !== undefined) return { forces: 'hidden' };
  // A zero or a weighing under way: what was weighed before does not hold any more.
  if (phase === 'zero' || phase === 'stand-still' || turn.weighing === undefined) return { forces: 'hidden' };
  return { forces: 'above', weight: turn.weighing.bodyWeight };
}

/** How the forces of a closed trial are told: its own weighing holds, whatever the phase has become. */
export function tellingOfTrial(
  { weightShown, entry }: Pick<RunningTurn, 'weightShown' | 'entry'>,
  { bodyWeight, result }: Pick<ClosedTrial, 'bodyWeight' | 'result'>,
): Telling {
  if (weightShown || entry.protocol.load !== 'weight') return { forces: 'total' };
  if (entry.protocol.jump !== undefined) return { forces: 'hidden' };
  const weight = bodyWeight ?? (result.bodyWeight.ok ? result.bodyWeight.value.value : undefined);
  return weight === undefined ? { forces: 'hidden' } : { forces: 'above', weight };
}

/** A total force as it may be told, N. */
export function told(value: number, telling: Telling): number {
  switch (telling.forces) {
    case 'total':
      return value;
    case 'above':
      return round(Math.max(lowest, value - telling.weight));
    case 'hidden':
      return round(Math.max(-most, Math.min(most, value)));
  }
}

/** A force that is no measurement of this moment: a band, a best. Undefined while forces are hidden. */
export function toldLevel(value: number, telling: Telling): number | undefined {
  if (telling.forces === 'hidden') return undefined;
  return telling.forces === 'total' ? value : round(value - telling.weight);
}

/** A piece of the curve as it may be told. The sides are left out: together they are the total. */
export function toldRun(run: EnvelopeRun, telling: Telling): EnvelopeRun {
  if (telling.forces === 'total') return run;
  const { first, bucket, rate, total } = run;
  return { first, bucket, rate, total: total.map((value) => (value === null ? null : told(value, telling))) };
}

const round = (value: number): number => Math.round(10 * value) / 10;
