import type { JumpKind } from '../protocols/protocol.ts';
import type { Forces } from '../recording/forces.ts';
import type { SampleSpan } from '../recording/sample.ts';
import { indexOfLargest, nthSmallest, samplesIn, slidingStatistics, touchesGap } from '../signal/index.ts';
import type { JumpMethod } from './method/jump-method.ts';
import { leastStanding, standingUnrest } from './quiet.ts';

/** A jump as the first pass sees it: its flight (of a series: all flights in order), and the samples that belong to it. */
export interface FoundJump {
  readonly flights: readonly SampleSpan[];
  /** Drop jump: first sample on the ground before the flight. */
  readonly contactStart?: number;
  /** Searched again in this span alone, it gives the same jump. */
  readonly span: SampleSpan;
}

/** A loaded moment shorter than this inside a flight is noise, s. */
const blip = 0.02;
/** How long before take-off the push, after touchdown the landing, is looked for, s. */
export const pushTime = 0.6;
const landingTime = 0.3;
/** Shortest time on the ground between two flights, s. */
const shortestContact = 0.05;

/**
 * Finds the jumps of a span, in order of time.
 *
 * A flight is a time of 0.1 to 1.2 s below the first threshold with people on the plates before and after: before it a push of
 * more than 1.15 times the standing force within 0.6 s, after it a landing of more than 1.3 times that force within 0.3 s. That
 * leaves out stepping on and off, and walking. Then by kind:
 * - from standing and from a squat: every flight is a jump, but one that follows a landing by less than 0.5 s is its bounce;
 * - drop: the flight follows a contact of at most 1 s that begins from an empty plate. That emptiness was no flight itself; from a box on
 *   a plate, where the fall looks like one, it was neither a jump nor one of the flights that follow it with such contacts between them;
 * - repeated: flights with contacts of at most 1 s between them make one series, with three contacts or more.
 *
 * All limits are proposals of this program; those of the method's `split` are part of its hash, the others are fixed here.
 *
 * @param weight W where it is known, N; else the median of what stands still, else of what is loaded
 */
export function splitJumps(
  forces: Forces,
  span: SampleSpan,
  kind: JumpKind,
  method: JumpMethod,
  weight?: number,
): FoundJump[] {
  const rate = forces.sampleRate;
  const { split, flight } = method;
  const runs = unloadedRuns(forces, span, flight.firstPass);
  const standing = weight ?? standingForce(forces, span, method.weighing.window);
  if (standing === undefined) return [];
  const isFlight = runs.map((run, i) => {
    const seconds = (run.end - run.start) / rate;
    if (run.start <= span.start || run.end >= span.end) return false;
    if (seconds < flight.leastTime || seconds > split.longestFlight) return false;
    const floor = runs[i - 1]?.end ?? span.start;
    const ceiling = runs[i + 1]?.start ?? span.end;
    const push = largest(forces.total, Math.max(floor, run.start - samplesIn(pushTime, rate)), run.start);
    const landing = largest(forces.total, run.end, Math.min(ceiling, run.end + samplesIn(landingTime, rate)));
    return push > split.push * standing && landing > split.landing * standing;
  });
  const groups: Group[] =
    kind === 'repeated'
      ? series(runs, isFlight, rate, method)
      : kind === 'drop'
        ? drops(runs, isFlight, rate, method)
        : singles(runs, isFlight, rate, method);
  return groups.map((group, i) => ({
    flights: group.flights,
    ...(group.contactStart === undefined ? {} : { contactStart: group.contactStart }),
    span: { start: groups[i - 1]?.end ?? span.start, end: groups[i + 1]?.begin ?? span.end },
  }));
}

interface Group {
  readonly flights: SampleSpan[];
  readonly contactStart?: number;
  /** First sample that the jump before it may not have. */
  readonly begin: number;
  /** First sample that may belong to the next jump: after the last flight or bounce. */
  end: number;
}

function singles(
  runs: readonly SampleSpan[],
  isFlight: readonly boolean[],
  rate: number,
  { split }: JumpMethod,
): Group[] {
  const groups: Group[] = [];
  runs.forEach((run, i) => {
    if (!isFlight[i]) return;
    const last = groups.at(-1);
    if (last !== undefined && run.start - last.end < split.bounce * rate) last.end = run.end;
    else groups.push({ flights: [run], begin: run.start, end: run.end });
  });
  return groups;
}

function drops(
  runs: readonly SampleSpan[],
  isFlight: readonly boolean[],
  rate: number,
  { split, drop }: JumpMethod,
): Group[] {
  const onBox = drop !== undefined;
  const groups: Group[] = [];
  /** The flight of the last jump, or the last of those that follow it. */
  let flown = -1;
  runs.forEach((run, i) => {
    const before = runs[i - 1];
    if (!isFlight[i] || before === undefined) return;
    const contact = (run.start - before.end) / rate;
    const last = groups.at(-1);
    // From a box on a plate the fall has people before and after it, as a jump has: only what follows a jump is none.
    if (onBox ? flown === i - 1 : isFlight[i - 1]) {
      if (contact <= split.contact) flown = i;
      if (last !== undefined && run.start - last.end < split.bounce * rate) last.end = run.end;
      return;
    }
    if (contact < shortestContact || contact > split.contact) return;
    groups.push({ flights: [run], contactStart: before.end, begin: before.end, end: run.end });
    flown = i;
  });
  return groups;
}

function series(
  runs: readonly SampleSpan[],
  isFlight: readonly boolean[],
  rate: number,
  { split }: JumpMethod,
): Group[] {
  const groups: Group[] = [];
  runs.forEach((run, i) => {
    if (!isFlight[i]) return;
    const last = groups.at(-1);
    if (last !== undefined && run.start - last.end <= split.contact * rate) {
      last.flights.push(run);
      last.end = run.end;
    } else groups.push({ flights: [run], begin: run.start, end: run.end });
  });
  return groups.filter(({ flights }) => flights.length > split.leastHops);
}

/** Runs below a force; loaded moments of less than 20 ms between two of them are taken for noise. */
function unloadedRuns({ total, sampleRate }: Forces, span: SampleSpan, threshold: number): SampleSpan[] {
  const runs: { start: number; end: number }[] = [];
  for (let i = span.start; i < span.end; i++) {
    if (!((total[i] as number) < threshold)) continue;
    const start = i;
    while (i < span.end && (total[i] as number) < threshold) i++;
    const last = runs.at(-1);
    if (last !== undefined && start - last.end < blip * sampleRate) last.end = i;
    else runs.push({ start, end: i });
  }
  return runs;
}

function standingForce(forces: Forces, span: SampleSpan, seconds: number): number | undefined {
  const width = Math.max(3, samplesIn(seconds, forces.sampleRate));
  const levels = new Float64Array(Math.max(0, span.end - span.start));
  let count = 0;
  if (span.end - span.start >= width) {
    const { mean, sd } = slidingStatistics(forces.total, width, span.start, span.end);
    for (let i = 0; i < mean.length; i++) {
      const level = mean[i] as number;
      if (level < leastStanding || (sd[i] as number) > standingUnrest * level) continue;
      if (!touchesGap(forces, span.start + i, span.start + i + width - 1)) levels[count++] = level;
    }
  }
  if (count === 0)
    for (let i = span.start; i < span.end; i++) {
      const force = forces.total[i] as number;
      if (force >= leastStanding) levels[count++] = force;
    }
  return nthSmallest(levels.subarray(0, count), Math.floor(count / 2));
}

function largest(force: Float64Array, from: number, to: number): number {
  return force[indexOfLargest(force, Math.max(0, from), to)] ?? Number.NEGATIVE_INFINITY;
}
