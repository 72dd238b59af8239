import { describe, expect, it } from 'vitest';
import { massOf, normalGravity, standardGravity, weighingGravity, wgs84Early } from './gravity.ts';

const near = (got: number, want: number, tolerance: number) => expect(Math.abs(got - want)).toBeLessThan(tolerance);

// GR-01 to GR-03, GR-05, GR-06: calculated values of the methods reference (jumps and plates, 9.4).
// GR-04: value published with the WELMEC formula for 52.3 degrees, 80 m.
describe('gravity', () => {
  it.each([
    [0, 9.7803253359],
    [30, 9.7932472693],
    [45, 9.8061977694],
    [60, 9.8191769531],
    [90, 9.8321849379],
  ])('GR-01: WGS 84 at %d degrees', (latitude, want) => near(normalGravity(latitude), want, 1e-9));

  it('GR-02: the older constants', () => near(normalGravity(45, 0, wgs84Early), 9.8061992025, 1e-9));

  it.each([
    [45, 1000, 9.8031129436],
    [51.5, 200, 9.8114165911],
    [40, 1600, 9.7967612377],
  ])('GR-03: at %d degrees, %d m', (latitude, height, want) => near(normalGravity(latitude, height), want, 1e-8));

  it('GR-04: the published WELMEC value', () => near(weighingGravity(52.3, 80), 9.812483709897048, 1e-12));

  it.each([
    [0, 0, 9.780318],
    [45, 0, 9.8061908532],
    [90, 0, 9.8321771582],
    [40, 1600, 9.7967539396],
    [35, 500, 9.7957865505],
  ])('GR-05: WELMEC at %d degrees, %d m', (latitude, altitude, want) =>
    near(weighingGravity(latitude, altitude), want, 1e-9),
  );

  it('GR-06: mass from weight', () => {
    near(massOf(980, 9.78), 100.204499, 1e-5);
    near(massOf(980, standardGravity), 99.932189, 1e-5);
  });
});
