import { spots, tapFigures } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import { type Packet, type PlateSide, type VirtualPlates, virtualPlates, virtualScripts } from '../../src/index.ts';
import { stillClock } from './rig.ts';

/** Plates that are played by hand, and everything each has shown. */
async function played(name: string) {
  const packets: Packet[] = [];
  const script = { ...virtualScripts[name]!, byHand: true };
  const plates = virtualPlates({ id: 'rig', script, seed: 5, clock: stillClock });
  await plates.start((packet) => void packets.push(packet));
  const shown = (side: PlateSide, last: number) => {
    const all = packets.flatMap((one) => {
      if (one.kind !== 'samples') return [];
      const from = side === 'left' ? 0 : one.count;
      return [...one.values.subarray(from, from + one.count)];
    });
    return Float64Array.from(all.slice(-last));
  };
  return { plates, shown };
}

const mean = (values: Float64Array) => values.reduce((sum, one) => sum + one, 0) / values.length;
const rest = (plates: VirtualPlates, seconds: number) => plates.run(plates.position + 1000 * seconds);

describe('a tap on virtual plates', () => {
  // What is put in stands in the scripts; a spectrum of half a second has steps of 2 Hz.
  it.each([
    ['fernwater-three', 'left', 180],
    ['fernwater-three', 'right', 180],
    ['fernwater-worn', 'right', 82],
  ] as const)('of %s, %s, rings at %d Hz, also under a load', async (name, side, frequency) => {
    const { plates, shown } = await played(name);
    plates.putLoad(side, 400);
    rest(plates, 2);
    plates.tap(side);
    rest(plates, 1);
    const found = tapFigures(shown(side, 2000), 1000);
    if (!found.ok) throw new Error(found.reason);
    expect(Math.abs(found.value.frequency - frequency)).toBeLessThan(1);
  });

  it('dies away with the damping that is put in, and does not reach the other plate', async () => {
    const { plates, shown } = await played('fernwater-three');
    rest(plates, 1);
    plates.tap('left');
    rest(plates, 1);
    const ring = shown('left', 1000);
    const size = (from: number) => Math.max(...ring.subarray(from, from + 20).map(Math.abs));
    // Damping 0.03 at 180 Hz: a factor exp(-0.03 2 pi 180 t) in t.
    const decay = Math.exp(-0.03 * 2 * Math.PI * 180 * 0.04);
    expect(size(40) / size(0)).toBeGreaterThan(0.9 * decay);
    expect(size(40) / size(0)).toBeLessThan(1.1 * decay);
    expect(Math.max(...shown('right', 1000).map(Math.abs))).toBeLessThan(4);
  });

  it('is the same each time', async () => {
    const once = async () => {
      const { plates, shown } = await played('fernwater-worn');
      rest(plates, 1);
      plates.tap('right');
      rest(plates, 1);
      return shown('right', 2000);
    };
    expect(await once()).toEqual(await once());
  });
});

describe('masses off the centre of virtual plates', () => {
  it('weigh the same everywhere on a sound plate, and 1 % less at the worn corner', async () => {
    const { plates, shown } = await played('fernwater-worn');
    const found = { left: [] as number[], right: [] as number[] };
    for (const spot of spots) {
      for (const side of ['left', 'right'] as const) plates.putLoad(side, 800, spot);
      rest(plates, 3);
      for (const side of ['left', 'right'] as const) found[side].push(mean(shown(side, 1000)));
    }
    // 1.2 % too much; and 3 N that stick on the way up. Noise of 0.6 N: a mean of 1000 samples is within 0.1 N.
    for (const value of found.left) expect(Math.abs(value - 1.012 * 800)).toBeLessThan(0.1);
    for (const [i, spot] of spots.entries())
      expect(Math.abs(found.right[i]! - (spot === 'back-right' ? 792 : 800) + 3)).toBeLessThan(0.1);
  });
});

describe('a person who stands still', () => {
  it('on one plate, then on the other', async () => {
    const { plates, shown } = await played('fernwater-three');
    const weighed = async (side: PlateSide, other: PlateSide) => {
      plates.standOn(side);
      rest(plates, 7);
      expect(Math.abs(mean(shown(other, 3000)))).toBeLessThan(0.1);
      return mean(shown(side, 3000));
    };
    // The first of the script weighs 640 N and breathes 0.5 N.
    expect(Math.abs((await weighed('left', 'right')) - 640)).toBeLessThan(0.5);
    expect(Math.abs((await weighed('right', 'left')) - 640)).toBeLessThan(0.5);
    plates.stepOff();
    rest(plates, 3);
    expect(Math.abs(mean(shown('right', 1000)))).toBeLessThan(0.1);
  });

  it('needs somebody in the script', async () => {
    const plates = virtualPlates({ id: 'rig', script: { people: [] }, seed: 1, clock: stillClock });
    expect(() => plates.standOn('left')).toThrow(RangeError);
  });
});
