/** Someone in the running order, as far as choosing needs it. Times in ms. */
export interface Candidate {
  readonly entry: string;
  readonly position: number;
  /** Efforts still to be done that the gates let through. */
  readonly left: number;
  /** The rig this person uses: chosen for them, or the one they began on. */
  readonly rig?: string | undefined;
  /** Set once an effort was done. */
  readonly begun: boolean;
  /** When the rest is over; 0 for someone who did nothing yet. */
  readonly readyAt: number;
  /** Heat, from 1; the same for everybody where the day has no heats. */
  readonly heat: number;
  /** On a rig now: not to be chosen, but the heat is not through yet. */
  readonly onRig?: boolean;
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
 */
export function chooseNext(rigs: readonly string[], candidates: readonly Candidate[], now: number): Choice[] {
  const taken = new Set<string>();
  const choices: Choice[] = [];
  // A rig with few who may use it chooses before one that anybody may use.
  const sorted = [...rigs].sort((a, b) => fitting(candidates, a).length - fitting(candidates, b).length);
  for (const rig of sorted) {
    const all = fitting(candidates, rig);
    const heat = Math.min(...all.map((one) => one.heat));
    const best = all
      .filter((one) => one.heat === heat && one.onRig !== true && !taken.has(one.entry))
      .sort((a, b) => compare(a, b, now))[0];
    if (best === undefined) continue;
    taken.add(best.entry);
    choices.push({ rig, entry: best.entry, at: Math.max(now, best.readyAt) });
  }
  return choices;
}

const fitting = (candidates: readonly Candidate[], rig: string) =>
  candidates.filter((one) => one.left > 0 && (one.rig === undefined || one.rig === rig));

function compare(a: Candidate, b: Candidate, now: number): number {
  const group = (one: Candidate) => (one.readyAt > now ? 2 : one.begun ? 0 : 1);
  if (group(a) !== group(b)) return group(a) - group(b);
  if (group(a) === 1) return a.position - b.position;
  return a.readyAt - b.readyAt || a.position - b.position;
}
