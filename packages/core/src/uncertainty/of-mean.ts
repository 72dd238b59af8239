import { rootSumOfSquares } from './combine.ts';
import { coverage, type PartId, partIds, partWords, type Uncertainty } from './parts.ts';

/** Parts that are drawn anew with every effort; all others are the same instrument and the same weighing. */
const anew: ReadonlySet<PartId> = new Set(['repeatability', 'noise', 'sampling']);
/** The same where every effort was weighed by itself, as jumps are by the quiet second before them. */
const anewWithWeight: ReadonlySet<PartId> = new Set([...anew, 'body-weight']);

/**
 * Uncertainty of the mean of several efforts of one session on one rig: what is drawn anew falls with their number, the rest stays.
 *
 * A part that is common moves all values together, so that its sizes are averaged as they are. Timing of events is averaged: it is a bias.
 *
 * @param weighedEach whether each effort has a body weight of its own
 * @returns undefined for no effort at all
 */
export function uncertaintyOfMean(efforts: readonly Uncertainty[], weighedEach = false): Uncertainty | undefined {
  const [first] = efforts;
  if (first === undefined) return undefined;
  const n = efforts.length;
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / n;
  const parts = partIds.flatMap((id) => {
    const sizes = efforts.flatMap((one) => one.parts.filter((part) => part.id === id));
    if (sizes.length === 0) return [];
    const standards = sizes.map(({ standard }) => standard);
    const [note] = sizes.flatMap((part) => part.note ?? []);
    const standard = (weighedEach ? anewWithWeight : anew).has(id) ? rootSumOfSquares(standards) / n : mean(standards);
    return [{ id, words: partWords[id], standard, ...(note === undefined ? {} : { note }) }];
  });
  const timing = (of: 'onsetTiming' | 'flightTiming') => {
    const sizes = efforts.flatMap((one) => one[of] ?? []);
    const [head] = sizes;
    if (head === undefined || sizes.length < n) return {};
    return { [of]: { words: head.words, standard: mean(sizes.map((one) => one.standard)) } };
  };
  const standard = rootSumOfSquares(parts.map((part) => part.standard));
  const missing = new Set(efforts.flatMap(({ unknown }) => unknown.map(({ id }) => id)));
  return {
    ...{ standard, expanded: coverage * standard, coverage, unit: first.unit, parts },
    unknown: partIds.filter((id) => missing.has(id)).map((id) => ({ id, words: partWords[id] })),
    ...timing('onsetTiming'),
    ...timing('flightTiming'),
  };
}
