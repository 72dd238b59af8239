import type { FieldRole } from '../description.ts';

/** Typical step between neighbours: the one most of them share, and how many do. */
export function commonStep(values: readonly number[]): { step: number; share: number } {
  const counts = new Map<number, number>();
  for (let i = 1; i < values.length; i++) {
    const step = Number(((values[i] as number) - (values[i - 1] as number)).toPrecision(9));
    counts.set(step, (counts.get(step) ?? 0) + 1);
  }
  let best = { step: 0, share: 0 };
  for (const [step, count] of counts)
    if (count / (values.length - 1) > best.share) best = { step, share: count / (values.length - 1) };
  return best;
}

/** A counter or a time, when a column is one: it goes up by the same step nearly always. */
export function columnRole(values: readonly number[], number: number): { role?: FieldRole; reason?: string } {
  const { step, share } = commonStep(values);
  const whole = values.every((value) => Number.isSafeInteger(value) && value >= 0);
  const falls = values.filter((value, i) => i > 0 && value < (values[i - 1] as number)).length;
  if (whole && step >= 1 && share > 0.9) {
    // A wrap shows its limit when it is seen: the largest value and the step make a round power of two or of ten.
    const wrapsAt = falls > 0 ? wrapLimit(Math.max(...values) + step) : undefined;
    const wraps = wrapsAt === undefined ? {} : { wrapsAt };
    const told = wrapsAt === undefined ? '' : `, and starts again at 0 after ${wrapsAt}`;
    return {
      role: { role: 'counter', ...wraps, ...(step === 1 ? {} : { step }) },
      reason: `Field ${number} goes up by ${step} from one to the next${told}: a counter.`,
    };
  }
  const rising = values.filter((value, i) => i > 0 && value > (values[i - 1] as number)).length;
  if (falls === 0 && rising > 0.95 * (values.length - 1) && values.length > 5) {
    const mean = ((values.at(-1) as number) - (values[0] as number)) / (values.length - 1);
    let scatter = 0;
    for (let i = 1; i < values.length; i++)
      scatter += Math.abs((values[i] as number) - (values[i - 1] as number) - mean);
    if (scatter / (values.length - 1) < 0.5 * mean) {
      // Between 20 and 20 000 samples a second a step is under 0.05 s, under 50 ms, or more.
      const unit = mean < 0.05 ? 's' : mean <= 50 ? 'ms' : 'us';
      return {
        role: { role: 'time', unit },
        reason: `Field ${number} rises evenly by about ${Number(mean.toPrecision(4))}: a time, in ${unit} by the size of its steps.`,
      };
    }
  }
  return {};
}

/** The nearest limit above: 2^n - 1 or 10^n - 1, when it lies within a step. */
function wrapLimit(above: number): number | undefined {
  for (const limit of [255, 999, 9_999, 65_535, 99_999, 999_999, 16_777_215, 4_294_967_295]) {
    if (above >= limit && above <= limit * 1.02 + 1) return limit;
  }
  return undefined;
}
