import type { BatteryOrder } from '@sthene/contract';

/** Someone in the running order with one test, as far as choosing needs it. Times in ms. */
export interface Candidate {
  readonly entry: string;
  /** Absent: nobody has a second entry. */
  readonly person?: string;
  readonly position: number;
  /** Efforts still to be done that the gates let through. */
  readonly left: number;
  /** The rig this person uses: chosen for them, or the one they began on. */
  readonly rig?: string | undefined;
  /** Rigs the test is done on; absent: any. */
  readonly rigs?: readonly string[] | undefined;
  /** Set once an effort was done. */
  readonly begun: boolean;
  /** When the rest is over; 0 for someone who did nothing yet. */
  readonly readyAt: number;
  /** Heat, from 1; the same for everybody where the day has no heats. */
  readonly heat: number;
  /** On a rig now: not to be chosen, but the heat is not through yet. */
  readonly onRig?: boolean;
  /** In a battery: another test of this person comes first. */
  readonly after?: boolean;
  /** In a battery: place of the test in the plan. */
  readonly stage?: number;
  /** In a battery: the rig of this person's last effort today, of whichever test. */
  readonly at?: string | undefined;
}

/** Who goes on which rig next, and when. */
export interface Choice {
  readonly rig: string;
  readonly entry: string;
  readonly at: number;
}

/**
 * Chooses for each free rig, so that nobody waits while another rests: whoever has begun and is rested goes first, the one who
 * has been ready longest before the others; else somebody new, in the running order; else whoever is ready soonest. Nobody is
 * chosen for two rigs. A heat begins when nobody of the one before it, as far as they may use that rig, has an effort left.
 *
 * In a battery a person's tests come one after the other. `by-person`: whoever has begun on a rig has it until they are through there,
 * rests included. `by-test`: the next test begins on a rig when nobody who may use it has an effort of the one before it left.
 */
export function chooseNext(
  rigs: readonly string[],
  candidates: readonly Candidate[],
  now: number,
  battery?: BatteryOrder,
): Choice[] {
  const taken = new Set<string>();
  const busy = new Set(candidates.flatMap((one) => (one.onRig === true && one.person !== undefined ? one.person : [])));
  const choices: Choice[] = [];
  // A rig with few who may use it chooses before one that anybody may use.
  const sorted =
    rigs.length < 2 ? rigs : [...rigs].sort((a, b) => fitting(candidates, a).length - fitting(candidates, b).length);
  for (const rig of sorted) {
    const all = fitting(candidates, rig);
    const heat = all.reduce((first, one) => Math.min(first, one.heat), Number.POSITIVE_INFINITY);
    const due = all.filter((one) => one.heat === heat && one.after !== true);
    // A day is played forward with this effort by effort, so that nothing is sorted where one is sought.
    let best: Candidate | undefined;
    for (const one of inTurn(due, rig, battery)) {
      if (one.onRig === true || taken.has(personOf(one)) || busy.has(personOf(one))) continue;
      if (best === undefined || compare(one, best, now) < 0) best = one;
    }
    if (best === undefined) continue;
    taken.add(personOf(best));
    choices.push({ rig, entry: best.entry, at: Math.max(now, best.readyAt) });
  }
  return choices;
}

const personOf = ({ person, entry }: Candidate): string => person ?? entry;

const fitting = (candidates: readonly Candidate[], rig: string) =>
  candidates.filter(
    (one) => one.left > 0 && (one.rig === undefined ? one.rigs?.includes(rig) !== false : one.rig === rig),
  );

/** Who of those that are due may go on a rig by the order of the battery. */
function inTurn(due: readonly Candidate[], rig: string, battery: BatteryOrder | undefined): readonly Candidate[] {
  if (battery === 'by-person') {
    const begun = due.filter((one) => one.at === rig);
    return begun.length > 0 ? begun : due;
  }
  if (battery === undefined) return due;
  const stage = Math.min(...due.map((one) => one.stage ?? 0));
  return due.filter((one) => (one.stage ?? 0) === stage);
}

function compare(a: Candidate, b: Candidate, now: number): number {
  const group = groupOf(a, now);
  const other = groupOf(b, now);
  if (group !== other) return group - other;
  if (group === 1) return a.position - b.position;
  return a.readyAt - b.readyAt || a.position - b.position;
}

/** Rested after an effort, new, or still resting. */
const groupOf = ({ readyAt, begun }: Candidate, now: number): 0 | 1 | 2 => (readyAt > now ? 2 : begun ? 0 : 1);
