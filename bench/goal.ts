/** A measured value against what it should be. */
export interface Goal {
  readonly words: string;
  readonly met: boolean;
  /** By how much it is missed; empty when met. */
  readonly missedBy: string;
}

/** The value should be at least the limit. */
export function atLeast(limit: number, value: number, words: string): Goal {
  return { words, met: value >= limit, missedBy: value >= limit ? '' : share(limit - value, limit) };
}

/** The value should be at most the limit. */
export function atMost(limit: number, value: number, words: string): Goal {
  return { words, met: value <= limit, missedBy: value <= limit ? '' : share(value - limit, limit) };
}

const share = (by: number, of: number): string => {
  const percent = (100 * by) / of;
  return `${percent < 10 ? percent.toFixed(1) : percent.toFixed(0)} %`;
};
