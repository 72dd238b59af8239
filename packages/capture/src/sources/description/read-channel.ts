import type { ChannelDescription, MadeChannelDescription } from '../description.ts';
import { readSurface } from './read-surface.ts';
import type { Reader } from './reader.ts';

export const sides = ['left', 'right', 'none'] as const;
export const axes = ['z', 'x', 'y', 'mx', 'my', 'mz', 'force', 'other'] as const;

/** What every channel says of itself, one that comes in and one that is made. */
export const identityKeys = ['name', 'plate', 'side', 'axis', 'unit', 'surface'] as const;

/** Reads what every channel says of itself. */
export const readIdentity = (
  read: Reader,
  f: Readonly<Record<string, unknown>>,
  at: string,
): MadeChannelDescription => ({
  name: read.text(f, 'name', at),
  plate: read.text(f, 'plate', at),
  side: read.choice(f, 'side', at, sides),
  axis: read.choice(f, 'axis', at, axes),
  unit: read.text(f, 'unit', at, [1, 40]),
  ...(f.surface === undefined ? {} : { surface: readSurface(read, f.surface, `${at}/surface`) }),
});

/** Reads a channel that comes in. */
export function readChannel(read: Reader, value: unknown, at: string): ChannelDescription {
  const f = read.object(value, at, [...identityKeys, 'scale', 'offset', 'rawRange']) ?? {};
  const scale = read.number(f, 'scale', at, -1e12, 1e12);
  if (scale === 0) {
    read.problem('source-value-out-of-range', `${at}/scale`, 'A scale of zero would make every value zero.', {
      found: 0,
    });
  }
  const range = f.rawRange === undefined ? undefined : read.list(f, 'rawRange', at, [2, 2]);
  const [low, high] = range ?? [];
  if (range !== undefined && !(typeof low === 'number' && typeof high === 'number' && low < high)) {
    read.problem('source-value-out-of-range', `${at}/rawRange`, 'The range has to be a smaller and a larger number.');
  }
  return {
    ...readIdentity(read, f, at),
    scale,
    offset: read.number(f, 'offset', at, -1e12, 1e12),
    ...(range === undefined ? {} : { rawRange: [low as number, high as number] as const }),
  };
}
