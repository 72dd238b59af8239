import type { EarlierWeighing, EarlierWeight } from '@sthene/capture';
import type { DayEffort, LoadedDay, LoadedEntry } from './day/loaded.ts';
import type { OriginFacts } from './rig/keep-trial.ts';
import type { RigRuntime } from './rig/rig-runtime.ts';
import type { RunningTurn } from './turn.ts';

/** What a turn of a battery takes over from the tests before it, and what there is to say of it. */
export interface TakenOver {
  readonly weighed?: EarlierWeighing;
  readonly note?: string;
}

/**
 * The one weighing of a battery: the newest of this person, today, on this rig. Read from what is kept of the efforts, so that it is there
 * after a restart too; whether the zero held is for the engine to see.
 */
export function earlierWeighing(loaded: LoadedDay, entry: LoadedEntry, rig: RigRuntime): TakenOver {
  if (loaded.settings.battery === undefined || rig.files || entry.protocol.load !== 'weight') return {};
  const efforts = loaded.entries
    .filter(({ person }) => person.id === entry.person.id)
    .flatMap(({ done, protocol }) => done.map((effort) => ({ effort, test: protocol.id, facts: factsOf(effort) })));
  const weighed = efforts.filter(
    (one): one is typeof one & { facts: OriginFacts } => one.facts?.weighing !== undefined && isSure(one.facts),
  );
  // An effort that used the weighing of another one leads there.
  const own = weighed.filter(({ facts }) => facts.rig === rig.id && facts.weighedBefore === undefined);
  const newest = own.sort((a, b) => at(a.effort).localeCompare(at(b.effort))).at(-1);
  if (newest === undefined) return weighed.length === 0 ? {} : { note: notes['another-rig'] };
  const { facts, test, effort } = newest;
  if (facts.bodyWeight === undefined || facts.weighing === undefined) return {};
  if (facts.unit !== (entry.protocol.parameters?.unit ?? 'N')) return {};
  const { standing } = rig;
  return {
    weighed: {
      bodyWeight: facts.bodyWeight,
      seconds: facts.weighing,
      zeros: facts.zeros,
      from: { test, trial: effort.row.id },
      here: standing?.person === entry.person.id && standing.bodyWeight === facts.bodyWeight,
    },
  };
}

const factsOf = ({ origin }: DayEffort): OriginFacts | undefined => origin?.facts as OriginFacts | undefined;

const at = ({ origin }: DayEffort): string => origin?.endedAt ?? '';

/** Nobody doubted who stood there. */
const isSure = ({ reasons }: OriginFacts): boolean => !reasons.includes('identity-unsure');

const notes = {
  'another-rig': 'Weighed again: the test before was on another rig.',
  'zero-moved': 'Weighed again: the zero has moved since the test before.',
  'weight-differs': 'Weighed again: this is not the weight of the test before.',
} as const;

/** What became of the earlier weight, in words. */
export function weightNoteOf(output: EarlierWeight, { earlierTest }: Pick<RunningTurn, 'earlierTest'>): string {
  if (!output.stands) return notes[output.because];
  return `Not weighed again. The weight stands that was taken with: ${earlierTest ?? 'the test before'}.`;
}
