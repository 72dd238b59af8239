import { rootSumOfSquares } from './combine.ts';
import { coverage, type PartId, partIds, partWords, type Uncertainty } from './parts.ts';

/** Parts that are drawn anew with every effort; all others are the same instrument and the same weighing. */
const anew: ReadonlySet<PartId> = new Set(['repeatability', 'noise', 'sampling']);

/**
 * Uncertainty of the mean of several efforts of one session on one rig: what is drawn anew falls with their number, the rest stays.
 *
 * A part that is common moves all values together, so that its sizes are averaged as they are. Onset timing is averaged: it is a bias.
 *
 * @returns undefined for no effort at all
 */
export function uncertaintyOfMean(efforts: readonly Uncertainty[]): Uncertainty | undefined {
  const [first] = efforts;
  if (first === undefined) return undefined;
  const n = efforts.length;
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / n;
  const parts = partIds.flatMap((id) => {
    const sizes = efforts.flatMap((one) => one.parts.filter((part) => part.id === id));
    if (sizes.length === 0) return [];
    const standards = sizes.map(({ standard }) => standard);
    const [note] = sizes.flatMap((part) => part.note ?? []);
    const standard = anew.has(id) ? rootSumOfSquares(standards) / n : mean(standards);
    return [{ id, words: partWords[id], standard, ...(note === undefined ? {} : { note }) }];
  });
  const timings = efforts.flatMap(({ onsetTiming }) => onsetTiming ?? []);
  const standard = rootSumOfSquares(parts.map((part) => part.standard));
  const missing = new Set(efforts.flatMap(({ unknown }) => unknown.map(({ id }) => id)));
  return {
    ...{ standard, expanded: coverage * standard, coverage, unit: first.unit, parts },
    unknown: partIds.filter((id) => missing.has(id)).map((id) => ({ id, words: partWords[id] })),
    ...(timings[0] && timings.length === n
      ? { onsetTiming: { words: timings[0].words, standard: mean(timings.map((one) => one.standard)) } }
      : {}),
  };
}
