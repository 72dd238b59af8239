import { type Channel, type ForcePlatform, physicalValues, pressSign, verticalShares, weightedSum } from '@sthene/core';
import type { C3dLayout } from './layout.ts';
import type { Notices } from './notices.ts';
import { numbersOf, type Parameter } from './parameters.ts';

type Parameters = ReadonlyMap<string, Parameter>;
type Triple = [number, number, number];

/** A baseline larger than this, N, is a person on the plate and not an offset; it is not subtracted. */
const mostBaseline = 100;

/** Samples of the ZERO range (1-based 3D frames), null where the range says "none" or lies outside. */
export function zeroRange(zero: readonly number[], layout: C3dLayout): { start: number; end: number } | null {
  const [first = 0, last = 0] = zero;
  if (last <= 0 || last < first || last > layout.frames) return null;
  return { start: (Math.max(first, 1) - 1) * layout.samplesPerFrame, end: last * layout.samplesPerFrame };
}

function mean(values: Float64Array, start: number, end: number): number {
  let sum = 0;
  for (let i = start; i < end; i++) sum += values[i] as number;
  return sum / (end - start);
}

/** Six values a column, as rows: element (row r, column c) lies at index 6 c + r. */
function matrixOf(values: readonly number[]): number[][] | undefined {
  if (values.length < 36 || !values.every(Number.isFinite)) return undefined;
  return Array.from({ length: 6 }, (_, r) => Array.from({ length: 6 }, (_, c) => values[6 * c + r] as number));
}

function triple(values: readonly number[], at: number): Triple | undefined {
  const [x, y, z] = values.slice(at, at + 3);
  if (x === undefined || y === undefined || z === undefined) return undefined;
  return [x, y, z].every(Number.isFinite) ? [x, y, z] : undefined;
}

/** Newtons per unit of a force channel; null where the unit is none of force. */
function newtonsPer(unit: string): number | null {
  if (unit === 'N' || unit === '') return 1;
  return unit === 'kN' ? 1000 : null;
}

/**
 * Vertical force of a platform from its channels, N, nothing subtracted. Absent when the type is not computed or a channel
 * with a share does not exist.
 *
 * @param list the platform's channels, 0-based, in the order of the type
 */
export function forceOf(
  type: number,
  calibration: readonly (readonly number[])[] | undefined,
  list: readonly number[],
  channels: readonly Channel[],
): Float64Array | undefined {
  const shares = verticalShares(type, type === 4 ? calibration : undefined);
  if (shares === null || shares.length === 0) return undefined;
  const terms = shares.map(({ channel, factor }) => ({ channel: channels[list[channel] ?? -1], factor }));
  if (terms.some((term) => term.channel === undefined)) return undefined;
  return weightedSum(
    terms.map((term) => {
      const channel = term.channel as Channel;
      return { channel, factor: term.factor * (type === 4 ? 1 : (newtonsPer(channel.unit) ?? 1)) };
    }),
  );
}

/** Platforms and what a writer must know of them beyond the recording's own fields. */
export interface ReadPlatforms {
  readonly platforms: ForcePlatform[];
  /** Subtracted baselines in N by platform, 0 where none was. */
  readonly baselines: readonly number[];
}

/**
 * Force platforms with their vertical force in N, sign as in the file.
 *
 * Types 1 to 4 are computed; others keep their channels and carry no force. The mean of a valid ZERO range is subtracted,
 * unless it is so large that somebody must have stood there. A platform whose channels do not exist has an empty list.
 *
 * Source: C3D User Guide, FORCE_PLATFORM group (c3d.org); the 100 N limit is this project's own.
 */
export function platformsOf(
  channels: readonly Channel[],
  layout: C3dLayout,
  parameters: Parameters,
  lengthUnit: string,
  notices: Notices,
): ReadPlatforms {
  const get = (name: string): Parameter | undefined => parameters.get(`FORCE_PLATFORM:${name}`);
  const types = numbersOf(get('TYPE'));
  const wanted = numbersOf(get('USED'), { unsigned: true })[0] ?? types.length;
  const lists = numbersOf(get('CHANNEL'));
  const width = get('CHANNEL')?.dimensions[0] ?? 6;
  // Adding 0 makes a stored -0 a plain 0; in a place or a factor it means nothing else.
  const places = (name: string): number[] => numbersOf(get(name)).map((value) => value + 0);
  const corners = places('CORNERS');
  const origins = places('ORIGIN');
  const matrices = places('CAL_MATRIX');
  const zero = zeroRange(numbersOf(get('ZERO')), layout);
  const count = Math.min(wanted, types.length);
  if (count < wanted) notices.add('c3d-plates-missing', `${wanted} plates are announced, ${count} are described.`);

  const platforms: ForcePlatform[] = [];
  const baselines: number[] = [];
  for (let k = 0; k < count; k++) {
    const type = types[k] as number;
    const name = `Plate ${k + 1}`;
    const size = type === 3 ? 8 : type >= 1 && type <= 4 ? 6 : width;
    const list = lists.slice(k * width, k * width + Math.min(size, width)).map((channel) => channel - 1);
    const complete = list.length > 0 && list.every((i) => i >= 0 && i < channels.length);
    const calibration = matrixOf(matrices.slice(36 * k, 36 * k + 36));
    const shares = verticalShares(type, type === 4 ? calibration : undefined);
    if (type < 1 || type > 4) {
      notices.add(
        'c3d-plate-type',
        `${name} is of type ${type}, which is not computed; its channels are kept as they are.`,
      );
    } else if (shares === null) {
      notices.add(
        'c3d-plate-calibration',
        `${name} is of type 4 but has no calibration matrix; no force was computed.`,
      );
    }
    if (!complete) {
      notices.add(
        'c3d-plate-channels',
        `${name} names channels that do not exist (${list.map((i) => i + 1).join(', ')}).`,
      );
    }

    const force = forceOf(type, calibration, list, channels);
    if (
      force !== undefined &&
      type !== 4 &&
      newtonsPer(channels[list[type === 3 ? 4 : 2] as number]?.unit ?? '') === null
    ) {
      notices.add('c3d-plate-unit', `${name} gives its force in a unit that is not one of force; N was assumed.`);
    }
    const baseline =
      force !== undefined && zero !== null ? mean(force, zero.start, Math.min(zero.end, force.length)) : 0;
    let subtracted = 0;
    if (force !== undefined && Math.abs(baseline) >= mostBaseline) {
      notices.add(
        'c3d-zero-loaded',
        `${name}: the baseline range reads ${baseline.toFixed(1)} N, too much for an empty plate; nothing was subtracted.`,
      );
    } else if (force !== undefined && Number.isFinite(baseline) && baseline !== 0) {
      subtracted = baseline;
      for (let i = 0; i < force.length; i++) force[i]! -= subtracted;
      notices.add('c3d-zero-subtracted', `${name}: the file's baseline of ${baseline.toFixed(2)} N was subtracted.`);
    }
    baselines.push(subtracted);

    const at = corners.slice(12 * k, 12 * k + 12);
    const known = at.length === 12 && at.some((value) => value !== 0) && at.every(Number.isFinite);
    if (!known) notices.add('c3d-plate-corners', `${name} has no usable corners; its place is unknown.`);
    const origin = triple(origins, 3 * k);
    // What was taken off the force is taken off its moments as well, in the unit of each channel. A place (type 1) has nothing to take off.
    const isPlace = (c: number) => type === 1 && (c === 3 || c === 4);
    const empty =
      subtracted === 0 || zero === null || !complete
        ? undefined
        : list.map((i, c) => (isPlace(c) ? 0 : mean(physicalValues(channels[i] as Channel), zero.start, zero.end)));
    platforms.push({
      name,
      type,
      channels: complete ? list : [],
      ...(force === undefined ? {} : { verticalForce: force }),
      pressSign: force === undefined ? -1 : pressSign(force),
      ...(known ? { corners: [0, 3, 6, 9].map((i) => triple(at, i) as Triple) } : {}),
      ...(origin === undefined ? {} : { origin }),
      ...(calibration === undefined ? {} : { calibration }),
      lengthUnit,
      ...(empty?.every(Number.isFinite) ? { baselines: empty } : {}),
    });
  }
  return { platforms, baselines };
}
