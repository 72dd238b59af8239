import type { JumpContext } from '../../jumps/jump-context.ts';
import type { Forces } from '../../recording/forces.ts';
import { type Samples, samplesIn } from '../../signal/index.ts';
import type { SampleNoise } from '../sources.ts';
import type { Instant } from './instants.ts';

/**
 * Noise of one sample: SD of the plates in the middle of the flight, when nobody is on them; that of the quiet second, which holds the
 * sway too, where the plates gave exactly nothing. The sides share it as they share what changes from one sample to the next.
 */
export function noiseOfJump({ events, forces }: JumpContext): SampleNoise | undefined {
  const { threshold, weighing } = events;
  const quiet = weighing.ok ? weighing.value : undefined;
  const [window, sd] = threshold.flightSd > 0 ? [threshold.window, threshold.flightSd] : [quiet, quiet?.sd];
  if (window === undefined || sd === undefined) return undefined;
  const { left, right } = forces;
  if (left === undefined || right === undefined) return { total: sd };
  const [l, r] = [stepSquares(left, window.start, window.end), stepSquares(right, window.start, window.end)];
  const share = l + r > 0 ? l / (l + r) : 0.5;
  return { total: sd, left: sd * Math.sqrt(share), right: sd * Math.sqrt(1 - share) };
}

function stepSquares(force: Samples, start: number, end: number): number {
  let sum = 0;
  for (let i = start + 1; i < end; i++) sum += ((force[i] as number) - (force[i - 1] as number)) ** 2;
  return sum;
}

/** Samples [start, end) whose noise is moved together. */
export interface Piece {
  readonly start: number;
  readonly end: number;
}

/** Longest piece, s: over it a sample's weight in a value hardly changes. */
const longest = 0.02;
/** How long after a touchdown whose landing has no end, s. */
const landing = 0.5;

/**
 * The samples values are made of, in short pieces; a sample that counts by itself (an instant, a peak) is a piece of its own.
 *
 * @param singles further samples that count by themselves
 * @param dependent samples that stand for one independent one
 */
export function piecesOf(
  jump: JumpContext,
  instants: readonly Instant[],
  singles: readonly number[],
  dependent: number,
): readonly Piece[] {
  const { kind, drop, events, forces, motion, stance } = jump;
  const rate = forces.sampleRate;
  const alone = new Set(
    [...instants.flatMap(({ id, at }) => (id === 'onset' ? [] : [at - 1, at])), ...singles].map(Math.round),
  );
  if (kind === 'repeated') return [...alone].map((start) => ({ start, end: start + 1 }));
  const { takeOff, touchdown, endOfLanding, firstTouchdown, span } = events;
  const from = firstTouchdown ?? (motion.ok ? motion.value.start : takeOff);
  const down = endOfLanding ?? Math.min(span.end - 1, touchdown + samplesIn(landing, rate));
  const until = kind === 'drop' && drop === undefined && stance.ok ? stance.value.end : down + 1;
  const { weighing } = events;
  const onBox = drop === undefined || !weighing.ok ? [] : [{ start: weighing.value.start, end: from }];
  const width = Math.max(samplesIn(longest, rate), Math.ceil(dependent), 1);
  return [...onBox, { start: from, end: takeOff + 1 }, { start: touchdown - 1, end: until }].flatMap(
    ({ start, end }) => {
      const pieces: Piece[] = [];
      for (let i = start; i < end; ) {
        let next = i + 1;
        if (!alone.has(i)) while (next < end && next - i < width && !alone.has(next)) next++;
        pieces.push({ start: i, end: next });
        i = next;
      }
      return pieces;
    },
  );
}

/** Forces of which a piece can be moved and put back, without copying a recording each time. */
export function scratchOf(forces: Forces): {
  readonly forces: Forces;
  readonly add: (of: 'total' | 'left' | 'right', piece: Piece, size: number) => void;
} {
  const total = forces.total.slice();
  const [left, right] = [forces.left?.slice(), forces.right?.slice()];
  return {
    forces: { ...forces, total, ...(left ? { left } : {}), ...(right ? { right } : {}) },
    add: (of, { start, end }, size) => {
      const own = of === 'left' ? left : of === 'right' ? right : undefined;
      for (let i = start; i < end; i++) {
        total[i] = (total[i] as number) + size;
        if (own) own[i] = (own[i] as number) + size;
      }
    },
  };
}
