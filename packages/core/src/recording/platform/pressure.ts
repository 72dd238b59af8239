import { conversionFactor, convertible } from '../../units/index.ts';
import { physicalValues } from '../physical.ts';
import type { Channel, ForcePlatform, Recording } from '../recording.ts';
import {
  type CentreOfPressure,
  centreOfPressure,
  combinedCentre,
  givenCentre,
  leastForceForCentre,
} from './centre-of-pressure.ts';
import { type Floor, floorOf, pointsDown } from './floor.ts';
import { type PlateFrame, placeToLaboratory, plateFrame } from './laboratory.ts';
import { calibrated, fromEightSensors } from './types.ts';
import { atSurface, type Triple, type Wrench, wrenchOf } from './wrench.ts';

/** A point that moves over the floor, one value a sample; NaN where nothing stands there or a sample is missing. */
export interface PressurePath {
  /** mm. */
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** Where the force acts on one plate. */
export interface PlatePressure extends PressurePath {
  readonly name: string;
  /** Index into the recording's platforms. */
  readonly platform: number;
  /** Vertical force, N, positive when pressed; NaN where a sample is missing. */
  readonly force: Float64Array;
  /** Free moment about the vertical through the point, N.m, plate axes, with the sign of the source. */
  readonly freeMoment: Float64Array;
  /** The plate's corners in its own axes, mm; absent where the source has none. */
  readonly outline?: readonly (readonly [x: number, y: number])[];
  /** Whether the plate's own z points down, as force plates have it: seen from above, x to the right, its y then runs toward the eye. */
  readonly zDown: boolean;
  /** The same in the laboratory, where the source says how the plate lies there. */
  readonly laboratory?: PressurePath & { readonly z: Float64Array };
  /** The same on the floor, along its two axes; absent too where the plates do not lie in one floor. */
  readonly floor?: PressurePath & { readonly outline: readonly (readonly [x: number, y: number])[] };
}

/** Where the force acts, plate by plate and as one. */
export interface Pressure {
  readonly plates: readonly PlatePressure[];
  /** The laboratory's axes that x and y of the floor are; absent where no plate says how it lies, or they do not lie in one floor. */
  readonly floor?: Floor;
  /** All plates as one, on the floor; absent where it is not known how each of them lies there. */
  readonly combined?: PressurePath & { readonly force: Float64Array };
}

const nothing = (count: number): Float64Array => new Float64Array(count).fill(Number.NaN);

/**
 * Centre of pressure of every platform of a recording that has the geometry for it: types 1 to 4 with the channels of their type, 2 to 4
 * with an origin, 4 with a calibration matrix. What the channels show of an empty plate (`baselines`) is taken off first.
 *
 * Wrench about the centre of the surface by `atSurface`, `fromEightSensors` or `calibrated`; `x = -My'/Fz`, `y = Mx'/Fz`,
 * `Tz = Mz' - (x Fy - y Fx)`; together `sum(Fz p) / sum(Fz)` on the floor. Lengths in the file's unit become mm. A moment
 * without a unit is in N times the length unit, as the C3D guide has it.
 *
 * @param leastForce N; under it a plate has no centre of pressure
 * @returns plates in the order of the platforms; none where no platform has what is needed
 *
 * Source: C3D User Guide, force platform calculations (c3d.org).
 */
export function pressureOf(recording: Recording, leastForce = leastForceForCentre): Pressure {
  const frames = recording.platforms.map((platform) => frameOf(platform, inMillimetres(platform.lengthUnit)));
  const floor = floorOf(frames.flatMap((frame) => frame ?? []));
  const plates = recording.platforms.flatMap((platform, index) => {
    const found = plateOf(recording, platform, index, { frame: frames[index], floor }, leastForce);
    return found === undefined ? [] : [found];
  });
  const combined = combinedOf(plates, recording.sampleCount, leastForce);
  return { plates, ...(floor === undefined ? {} : { floor }), ...(combined === undefined ? {} : { combined }) };
}

function plateOf(
  recording: Recording,
  platform: ForcePlatform,
  index: number,
  { frame, floor }: { readonly frame: PlateFrame | undefined; readonly floor: Floor | undefined },
  leastForce: number,
): PlatePressure | undefined {
  const centre = centreOf(platform, recording.channels, leastForce);
  if (centre === undefined) return undefined;
  const { sampleCount: count } = recording;
  const columns = platform.channels.map((at, c) => valuesOf(recording, at, platform.baselines?.[c] ?? 0));
  const length = inMillimetres(platform.lengthUnit);
  const [x, y, force, freeMoment] = [nothing(count), nothing(count), nothing(count), nothing(count)];
  const place = frame && { x: nothing(count), y: nothing(count), z: nothing(count) };
  const values = new Array<number>(columns.length);
  for (let n = 0; n < count; n++) {
    for (let c = 0; c < columns.length; c++) values[c] = (columns[c] as Float64Array)[n] as number;
    const { fz, at } = centre(values);
    force[n] = platform.pressSign * fz;
    if (at === null) continue;
    x[n] = at.x;
    y[n] = at.y;
    freeMoment[n] = at.freeMoment / 1000;
    if (frame === undefined || place === undefined) continue;
    [place.x[n], place.y[n], place.z[n]] = placeToLaboratory(frame, [at.x, at.y, 0]) as [number, number, number];
  }
  const corners = cornersOf(platform, length);
  const zDown =
    frame === undefined || floor === undefined ? (platform.origin?.[2] ?? 0) <= 0 : pointsDown(frame, floor);
  return {
    ...{ name: platform.name, platform: index, force, x, y, freeMoment, zDown },
    ...(frame === undefined || corners === undefined ? {} : { outline: corners.map((one) => onPlate(frame, one)) }),
    ...(place === undefined ? {} : { laboratory: place }),
    ...(place === undefined || corners === undefined || floor === undefined
      ? {}
      : { floor: onFloor(floor, place, corners) }),
  };
}

function onFloor(
  { along: [first, second] }: Floor,
  place: NonNullable<PlatePressure['laboratory']>,
  corners: readonly Triple[],
): NonNullable<PlatePressure['floor']> {
  const outline = corners.map(([x, y, z]) => {
    const corner = { x, y, z };
    return [corner[first], corner[second]] as const;
  });
  return { x: place[first], y: place[second], outline };
}

/** Values of a channel less its baseline, in its own unit; NaN in a gap. */
function valuesOf({ channels, gaps, sampleCount }: Recording, at: number, baseline: number): Float64Array {
  const values = nothing(sampleCount);
  const there = physicalValues(channels[at] as Channel);
  for (let n = 0; n < Math.min(sampleCount, there.length); n++) values[n] = (there[n] as number) - baseline;
  for (const { start, end } of gaps) values.fill(Number.NaN, start, Math.min(end, sampleCount));
  return values;
}

const inMillimetres = (unit = 'mm'): number => (convertible(unit, 'mm') ? conversionFactor(unit, 'mm') : 1);

type Centre = (values: readonly number[]) => { readonly fz: number; readonly at: CentreOfPressure | null };

/** How a platform's channels become a force and its place, mm and N.mm; undefined where something for it is missing. */
function centreOf(platform: ForcePlatform, channels: readonly Channel[], leastForce: number): Centre | undefined {
  const { type, origin, calibration, channels: list } = platform;
  const length = inMillimetres(platform.lengthUnit);
  const unitOf = (at: number) => channels[list[at] ?? -1]?.unit ?? '';
  const inNewtons = (at: number) => (convertible(unitOf(at), 'N') ? conversionFactor(unitOf(at), 'N') : 1);
  const inMoment = (at: number) => (convertible(unitOf(at), 'N.mm') ? conversionFactor(unitOf(at), 'N.mm') : length);
  if (list.length < (type === 3 ? 8 : 6)) return undefined;
  const bySurface = (surface: (values: readonly number[]) => Wrench): Centre => {
    return (values) => {
      const wrench = surface(values);
      return { fz: wrench.fz, at: centreOfPressure(wrench, leastForce) };
    };
  };
  const place = origin?.map((value) => value * length) as Triple | undefined;
  if (type === 1) {
    const inLength = (at: number) => (convertible(unitOf(at), 'mm') ? conversionFactor(unitOf(at), 'mm') : length);
    const factors = [inNewtons(0), inNewtons(1), inNewtons(2), inLength(3), inLength(4), inMoment(5)];
    return (values) => {
      const six = scaled(values, factors);
      return { fz: six[2] as number, at: givenCentre(six, leastForce) };
    };
  }
  if (place === undefined) return undefined;
  if (type === 2) {
    const factors = [inNewtons(0), inNewtons(1), inNewtons(2), inMoment(3), inMoment(4), inMoment(5)];
    return bySurface((values) => atSurface(wrenchOf(scaled(values, factors)), place));
  }
  if (type === 3) {
    const factors = list.map((_, at) => inNewtons(at));
    return bySurface((values) => fromEightSensors(scaled(values, factors), place));
  }
  if (type !== 4 || calibration === undefined) return undefined;
  // The matrix gives N and N times the length unit.
  const toMillimetres = [1, 1, 1, length, length, length];
  const matrix = calibration.map((row, r) => row.map((factor) => factor * (toMillimetres[r] ?? 1)));
  return bySurface((values) => atSurface(calibrated(matrix, values), place));
}

const scaled = (values: readonly number[], factors: readonly number[]): number[] =>
  factors.map((factor, i) => factor * (values[i] as number));

function cornersOf({ corners }: ForcePlatform, length: number): readonly Triple[] | undefined {
  if (corners === undefined || corners.length !== 4) return undefined;
  return corners.map((corner) => corner.map((value) => value * length) as unknown as Triple);
}

function frameOf(platform: ForcePlatform, length: number): PlateFrame | undefined {
  const corners = cornersOf(platform, length);
  return (corners && plateFrame(corners as unknown as readonly [Triple, Triple, Triple, Triple])) ?? undefined;
}

/** A place of the laboratory in the plate's own axes: `R' (p - centre)`. */
function onPlate({ centre, rotation }: PlateFrame, place: Triple): readonly [number, number] {
  const from = place.map((value, i) => value - (centre[i] as number));
  const along = (axis: 0 | 1) => rotation.reduce((sum, row, i) => sum + row[axis] * (from[i] as number), 0);
  return [along(0), along(1)];
}

function combinedOf(plates: readonly PlatePressure[], count: number, leastForce: number): Pressure['combined'] {
  if (plates.length === 0 || plates.some(({ floor }) => floor === undefined)) return undefined;
  const path = { x: nothing(count), y: nothing(count), force: nothing(count) };
  for (let n = 0; n < count; n++) {
    // A plate that nobody stands on has a force of noise and no place.
    const loaded = plates.flatMap(({ force, floor }) => {
      const newtons = force[n] as number;
      if (Math.abs(newtons) < leastForce) return [];
      return [{ force: newtons, x: floor?.x[n] as number, y: floor?.y[n] as number }];
    });
    const found = combinedCentre(loaded, leastForce);
    if (found === null) continue;
    path.x[n] = found.x;
    path.y[n] = found.y;
    path.force[n] = found.force;
  }
  return path;
}
