import type { Place, PlateSurface } from '../../packets/packet.ts';
import type { ChannelDescription, MadeChannelDescription, SourceDescription } from '../description.ts';
import type { Reader } from './reader.ts';

/** Axes a plate has to give so that the place of its force is known. */
const needed = ['x', 'y', 'z', 'mx', 'my', 'mz'] as const;
/** mm; a plate further away is a slip of units. */
const furthest = 100_000;

function readPlace(read: Reader, fields: object, key: string, at: string): Place {
  const values = read.list(fields as never, key, at, [3, 3]);
  const [x = 0, y = 0, z = 0] = values.map((_, i) =>
    read.number(values as never, String(i), `${at}/${key}`, -furthest, furthest),
  );
  return [x, y, z];
}

/** Reads where a plate's surface lies. */
export function readSurface(read: Reader, value: unknown, at: string): PlateSurface {
  const f = read.object(value, at, ['origin', 'corners']) ?? { origin: [0, 0, 0] };
  const origin = readPlace(read, f, 'origin', at);
  if (f.corners === undefined) return { origin };
  const corners = read.list(f, 'corners', at, [4, 4]);
  const places = corners.map((_, i) => readPlace(read, corners, String(i), `${at}/corners`));
  return { origin, corners: places as unknown as NonNullable<PlateSurface['corners']> };
}

/** A surface stands with the one vertical channel of a plate that gives three forces and three moments. */
export function checkSurfaces(
  read: Reader,
  channels: readonly ChannelDescription[],
  calibration: SourceDescription['calibration'] = [],
): void {
  const made = calibration.flatMap((one, c) =>
    one.channels.map((channel, i) => ({ channel, at: `/calibration/${c}/channels/${i}` })),
  );
  const all: { channel: MadeChannelDescription; at: string }[] = [
    ...channels.map((channel, i) => ({ channel, at: `/channels/${i}` })),
    ...made,
  ];
  for (const { channel, at } of all) {
    if (channel.surface === undefined) continue;
    const axes = all.filter((one) => one.channel.plate === channel.plate).map((one) => one.channel.axis);
    if (channel.axis === 'z' && needed.every((axis) => axes.filter((one) => one === axis).length === 1)) continue;
    const words =
      'A surface stands with the vertical channel of a plate that has each of three forces and three moments once.';
    read.problem('source-surface-incomplete', `${at}/surface`, words, {
      expected: needed.join(', '),
      found: `${channel.axis} of ${axes.join(', ')}`,
    });
  }
}
