import type { JumpContext } from '../../jumps/jump-context.ts';
import { landingSpan } from '../../jumps/metrics/landing.ts';
import type { Forces } from '../../recording/forces.ts';
import { samplesIn } from '../../signal/index.ts';
import { noiseOver } from '../sample-noise.ts';
import type { SampleNoise } from '../sources.ts';
import type { Instant } from './instants.ts';

/**
 * Noise of one sample: SD of the plates in the middle of the flight, when nobody is on them; that of the quiet second, which holds the
 * sway too, where the plates gave exactly nothing.
 */
export function noiseOfJump({ events: { threshold, weighing }, forces }: JumpContext): SampleNoise | undefined {
  if (threshold.flightSd > 0) return noiseOver(forces, threshold.window, threshold.flightSd);
  return weighing.ok ? noiseOver(forces, weighing.value, weighing.value.sd) : undefined;
}

/** Samples [start, end) whose noise is moved together. */
export interface Piece {
  readonly start: number;
  readonly end: number;
}

/** Longest piece, s: over it a sample's weight in a value hardly changes. */
const longest = 0.02;

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
  const { takeOff, touchdown, firstTouchdown } = events;
  const from = firstTouchdown ?? (motion.ok ? motion.value.start : takeOff);
  const until = kind === 'drop' && drop === undefined && stance.ok ? stance.value.end : landingSpan(jump).end + 1;
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
