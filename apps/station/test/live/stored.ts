import { expect } from 'vitest';
import { analysedAgain, type CheckedTrial, withStore } from './analysed-again.ts';

export { analysedAgain, withStore };

/** Every stored trial is to the last digit what the analysis of its stored recording gives. */
export async function expectSameAgain(folder: string, least: number): Promise<CheckedTrial[]> {
  // A verdict is told as soon as the journal has it; files and database follow.
  let checked = await withStore(folder, analysedAgain);
  for (let tries = 0; checked.length < least && tries < 100; tries++) {
    await new Promise((done) => setTimeout(done, 200));
    checked = await withStore(folder, analysedAgain);
  }
  expect(checked.length).toBeGreaterThanOrEqual(least);
  for (const { stored, again, origin, samples } of checked) {
    expect(again).toEqual(stored);
    expect(samples).toBe(origin.span.end - origin.span.start);
  }
  return checked;
}
