import { sayings } from '@sthene/capture';
import type { Day, WallRig, WallState } from '@sthene/contract';
import { protocolRegistry } from '@sthene/core';
import type { Rig } from '@sthene/store';
import type { ShownVerdict } from '../efforts.ts';
import type { EnvelopeRun } from '../rig/envelope.ts';
import type { RigRuntime } from '../rig/rig-runtime.ts';
import { isSilent } from '../rig/rig-words.ts';
import { bestForce, type RunningTurn, scaleOf } from '../turn.ts';

/** What the wall is told of a rig: names as chosen, and forces above standing only. */
export interface WallInput {
  readonly rig: Rig;
  readonly runtime: RigRuntime;
  readonly turn: RunningTurn | undefined;
  /** The last verdict, while it is shown. */
  readonly shown: ShownVerdict | undefined;
}

/** Builds the wall's state field by field; whatever is not written here does not get there. */
export function wallState(
  inputs: readonly WallInput[],
  day: Day | undefined,
  blank: boolean,
  wallNameOf: (entry: string) => string,
): Omit<WallState, 'sequence'> {
  return {
    type: 'wall',
    blank,
    title: day?.title ?? '',
    open: day !== undefined,
    marks: inputs.map(({ rig: { id, letter, shape } }) => ({ rig: id, letter, shape })),
    rigs: blank ? [] : inputs.map((input) => wallRig(input, isThrough(day, input.turn))),
    next: blank
      ? []
      : (day?.next ?? []).map(({ rig, entry }) => {
          const due = day?.entries.find(({ id }) => id === entry);
          const left = due?.rest?.left ?? 0;
          const here = inputs.find((one) => one.rig.id === rig)?.turn?.view.person.id;
          const test = due !== undefined && due.person.id === here ? protocolRegistry.get(due.test)?.title : undefined;
          return {
            rig,
            who: wallNameOf(entry),
            ...(test === undefined ? {} : { test }),
            ...(left > 0 ? { restLeft: left } : {}),
          };
        }),
  };
}

/** Whether the athlete of a turn has no effort of its test left. */
const isThrough = (day: Day | undefined, turn: RunningTurn | undefined): boolean =>
  day?.entries.find(({ id }) => id === turn?.view.entry)?.remaining.length === 0;

function wallRig({ rig, runtime, turn, shown }: WallInput, through: boolean): WallRig {
  const weight = turn?.weighing?.bodyWeight;
  const best = turn && bestForce(turn);
  return {
    rig: rig.id,
    letter: rig.letter,
    shape: rig.shape,
    phase: runtime.phase,
    ...(turn?.entry.protocol.jump === undefined ? {} : { jump: true }),
    ...(turn === undefined || runtime.jump?.stage === undefined ? {} : { stage: runtime.jump.stage }),
    ...whoOf(turn, shown, runtime.phase, through),
    // What is meant for the operator stays on the Floor.
    ...(turn === undefined || runtime.say === undefined
      ? {}
      : { now: isSilent(runtime.stream) ? sayings['on-hold'].words : runtime.say.words }),
    held: runtime.held,
    // A round scale: it must not tell the weight by its end either.
    scale: scaleOf(undefined).high,
    ...(turn?.target === undefined || weight === undefined
      ? {}
      : { target: { low: round(turn.target.low - weight), high: round(turn.target.high - weight) } }),
    ...(best === undefined || weight === undefined ? {} : { best: round(best - weight) }),
    ...(shown === undefined ? {} : { result: resultOf(shown) }),
  };
}

/** Name and effort: of the verdict while it stands, else of the turn. Whoever just stepped off still sees their result. */
function whoOf(
  turn: RunningTurn | undefined,
  shown: ShownVerdict | undefined,
  phase: string,
  through: boolean,
): Pick<WallRig, 'who' | 'what' | 'test'> {
  const judged = turn === undefined || phase === 'verdict' ? shown : undefined;
  if (judged !== undefined) return { who: judged.who, what: judged.what };
  if (turn === undefined) return {};
  // While they rest after the last effort of a test there is no effort to name.
  const what = phase === 'rest' && through ? {} : { what: turn.view.words };
  return { who: turn.wallName, ...testOf(turn), ...what };
}

/** In a battery: which test it is. */
function testOf({ view }: RunningTurn): Pick<WallRig, 'test'> {
  const { battery } = view;
  return battery === undefined
    ? {}
    : { test: `Test ${battery.place} of ${battery.of}: ${protocolRegistry.get(view.test)?.title ?? view.test}` };
}

function resultOf({ verdict, highest, height }: ShownVerdict): NonNullable<WallRig['result']> {
  const [headline] = verdict.values;
  return {
    trial: verdict.trial,
    verdict: verdict.verdict,
    say: verdict.say,
    ...(highest === undefined ? {} : { highest: round(highest) }),
    ...(height === undefined ? {} : { height: round(1000 * height) / 1000 }),
    best: headline?.best ?? false,
  };
}

const round = (value: number): number => Math.round(value);

/**
 * Force above standing. Cut off at zero: someone who steps off would otherwise show the weight they took away.
 *
 * @returns undefined before the weight is known, outside an effort, and in a jump test: with the height that follows, the force that
 * made it would be the mass
 */
export function aboveStanding(run: EnvelopeRun, turn: RunningTurn | undefined, phase: string): number[] | undefined {
  const weight = turn?.weighing?.bodyWeight;
  if (turn?.entry.protocol.jump !== undefined) return undefined;
  if (weight === undefined || !['set-up', 'ready', 'cue', 'pull', 'verdict'].includes(phase)) return undefined;
  return run.total.map((value) => Math.max(0, Math.round((value ?? 0) - weight)));
}
