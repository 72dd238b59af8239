import { type Channel, type ForcePlatform, simulatePull } from '@sthene/core';
import { formatOf } from '@sthene/formats';

/** Where each foot of `threeAxesFile` stands on its plate while nothing moves, mm from the middle, plate axes. */
export const feet = { left: [30, -60], right: [-25, 40] } as const;
/** How far the weight goes to and fro along the plate's y once in 2 s, mm from the middle of the way. */
export const sway = 12;

/**
 * A simulated pull on two plates of 400 x 600 mm side by side as a C3D file of type 2: z points down, forces are those of the plate on the
 * feet, so that a load is negative; moments about an origin 45 mm under the surface.
 */
export async function threeAxesFile(seed: number): Promise<Uint8Array<ArrayBuffer>> {
  const pull = simulatePull({}, seed);
  const count = pull.left.length;
  const channels: Channel[] = [];
  const platforms: ForcePlatform[] = [];
  for (const [k, side] of (['left', 'right'] as const).entries()) {
    const [x, y] = feet[side];
    const columns = Array.from({ length: 6 }, () => new Float64Array(count));
    for (let n = 0; n < count; n++) {
      const fz = -pull[side][n]!;
      const at = y + sway * Math.sin((Math.PI * n) / pull.sampleRate);
      const row = [0.02 * fz, 0, fz, at * fz, -45 * 0.02 * fz - x * fz, -at * 0.02 * fz];
      for (const [c, value] of row.entries()) columns[c]![n] = value;
    }
    const first = channels.length;
    for (const [c, name] of ['Fx', 'Fy', 'Fz', 'Mx', 'My', 'Mz'].entries())
      channels.push({ name: `${name}${k + 1}`, unit: c < 3 ? 'N' : 'N.mm', raw: columns[c]!, scale: 1, offset: 0 });
    const edge = 410 * k;
    platforms.push({
      ...{ name: `Plate ${k + 1}`, type: 2, channels: [0, 1, 2, 3, 4, 5].map((c) => first + c), pressSign: -1 },
      ...{ verticalForce: columns[2]!, origin: [0, 0, -45], lengthUnit: 'mm' },
      corners: [
        [edge + 400, 0, 0],
        [edge, 0, 0],
        [edge, 600, 0],
        [edge + 400, 600, 0],
      ],
    });
  }
  const format = formatOf('c3d');
  if (format?.write === undefined) throw new Error('C3D is not written');
  return (await format.write({
    ...{ sampleRate: pull.sampleRate, rateOrigin: 'declared', sampleCount: count, channels, platforms, gaps: [] },
    ...{ events: [], facts: {}, notices: [] },
  })) as Uint8Array<ArrayBuffer>;
}
