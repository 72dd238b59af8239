import type { Input, Span } from './plain/types.ts';

/** The recording that would exist had nothing but the span been kept; indices move with its start. */
export function cutTo(input: Input, { start, end }: Span): Input {
  const slice = (force: Float64Array) => force.slice(start, end);
  const inside = (gaps: readonly Span[]) =>
    gaps
      .map((gap) => ({ start: Math.max(gap.start, start) - start, end: Math.min(gap.end, end) - start }))
      .filter((gap) => gap.start < gap.end);
  const { span: _, left, right, onsetByHand, cue, ...rest } = input;
  return {
    ...rest,
    total: slice(input.total),
    ...(left ? { left: slice(left) } : {}),
    ...(right ? { right: slice(right) } : {}),
    plates: input.plates.map((plate) => ({ ...plate, force: slice(plate.force) })),
    gaps: { filled: inside(input.gaps.filled), open: inside(input.gaps.open) },
    ...(onsetByHand === undefined ? {} : { onsetByHand: onsetByHand - start }),
    ...(cue === undefined ? {} : { cue: cue - start }),
  };
}
