import { expect } from 'vitest';
import { analysedAgain, type CheckedTrial, withStore } from './analysed-again.ts';

export { analysedAgain, withStore };

/** Every stored trial is to the last digit what the analysis of its stored recording gives. */
export async function expectSameAgain(folder: string, least: number): Promise<CheckedTrial[]> {
  const checked = await withStore(folder, analysedAgain);
  expect(checked.length).toBeGreaterThanOrEqual(least);
  for (const { stored, again, origin, samples } of checked) {
    expect(again).toEqual(stored);
    expect(samples).toBe(origin.span.end - origin.span.start);
  }
  return checked;
}
