import { seededRandom } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import { RateMeter } from './rate.ts';

/**
 * Packets of 10 samples of a device whose count at time t is rate t + drift t^2 / 120; each is received after a delay of its own.
 * Truth: the count's own formula, by hand.
 */
function measured({
  rate,
  drift = 0,
  seconds,
  delay,
}: {
  rate: number;
  drift?: number;
  seconds: number;
  delay: number;
}) {
  const random = seededRandom(11, 1);
  const meter = new RateMeter(1000);
  let last = 0;
  for (let n = 10; ; n += 10) {
    const a = drift / 120;
    const t = a === 0 ? n / rate : (-rate + Math.sqrt(rate * rate + 4 * a * n)) / (2 * a);
    if (t > seconds) break;
    // A bus that hands on every 1 to 16 ms, now and then 60 ms; never out of order.
    const late = random.uniform() < 0.01 ? 0.06 : delay * random.uniform();
    last = Math.max(last, t + late);
    meter.add(n, 5000 + last);
  }
  return meter.line()!;
}

describe('the measured rate', () => {
  it.each([995, 1000, 1005])('finds %d Hz within 0.05 percent in ten seconds, through an uneven transport', (rate) => {
    const line = measured({ rate, seconds: 10, delay: 0.016 });
    expect(Math.abs(line.rate / rate - 1)).toBeLessThan(0.0005);
    expect(line.uncertainty / rate).toBeLessThan(0.0005);
    expect(Math.abs(line.rate - rate)).toBeLessThan(3 * line.uncertainty);
  });

  it('is closer than 0.001 % after a minute', () => {
    expect(Math.abs(measured({ rate: 999.5, seconds: 60, delay: 0.016 }).rate / 999.5 - 1)).toBeLessThan(1e-5);
  });

  it.each([-1, 1])('follows a drift of %d Hz a minute within 0.05 percent', (drift) => {
    const seconds = 180;
    const truth = 1000 + (drift * seconds) / 60;
    expect(Math.abs(measured({ rate: 1000, drift, seconds, delay: 0.016 }).rate / truth - 1)).toBeLessThan(0.0005);
  });

  it('says nothing too early, and its residual is the scatter of the transport', () => {
    const meter = new RateMeter(1000);
    expect(meter.line()).toBeUndefined();
    for (let i = 0; i <= 8; i++) meter.add(i * 110, i * 0.11);
    expect(meter.line()).toBeUndefined();
    for (let i = 9; i <= 40; i++) meter.add(i * 110, i * 0.11);
    const line = meter.line()!;
    expect(line.rate).toBeCloseTo(1000, 8);
    expect(line.residual).toBeLessThan(1e-10);
    expect(line.origin).toBeCloseTo(0, 10);
    // The smallest of ten even delays of 0 to 16 ms has an SD of 16 sqrt(10 / 12) / 11 = 1.33 ms.
    const uneven = measured({ rate: 1000, seconds: 20, delay: 0.016 });
    expect(uneven.residual).toBeGreaterThan(0.0008);
    expect(uneven.residual).toBeLessThan(0.003);
  });
});
