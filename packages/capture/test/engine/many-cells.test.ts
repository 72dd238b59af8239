import { expect, it } from 'vitest';
import type { HeaderPacket } from '../../src/packets/packet.ts';
import { closedOfSpread, onePull } from './spread.ts';
import { header } from './stage.ts';

const rate = 5000;
const cells = 16;

/** Eight cells under each of two plates, 5 kHz. */
const wide: HeaderPacket = {
  ...header(rate),
  channels: Array.from({ length: cells }, (_, c) => ({
    name: `cell-${c}`,
    plate: c < cells / 2 ? 'left' : 'right',
    side: c < cells / 2 ? ('left' as const) : ('right' as const),
    axis: 'z' as const,
    unit: 'N',
    scale: 1,
    offset: 0,
    rawRange: [-2000, 2000] as const,
  })),
};

it('judges eight cells under each plate at 5 kHz as it judges the two plates', () => {
  const stage = onePull(rate, 100);
  expect(stage.closed).toHaveLength(1);
  const closed = closedOfSpread(stage, wide);
  expect(closed).toHaveLength(1);
  const [ours, theirs] = [closed[0], stage.closed[0]];
  expect(ours?.span).toEqual(theirs?.span);
  expect(ours).toMatchObject({ verdict: theirs?.verdict, reasons: theirs?.reasons });
  expect(ours?.result.verdict).toEqual(theirs?.result.verdict);
  // Eighths of a force are exact; only their sums round.
  const peak = (trial: typeof ours) => {
    const found = trial?.result.metrics.peak_force;
    return found !== undefined && 'value' in found ? found.value : Number.NaN;
  };
  expect(peak(theirs)).toBeGreaterThan(1500);
  expect(peak(ours)).toBeCloseTo(peak(theirs), 6);
});
