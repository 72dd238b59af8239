import {
  conversionFactor,
  convertible,
  type ForcePlatform,
  type LaboratoryAxis,
  type PathFigures,
  pathFigures,
  physicalValues,
  pressureOf,
  proposeForces,
  type Recording,
  verticalShares,
  weightedSum,
} from '@sthene/core';

/** What is in one recording, as `sthene inspect --json` prints it. */
export interface RecordingDescription {
  readonly label?: string;
  readonly rate_hz: number;
  readonly rate_from: string;
  readonly samples: number;
  readonly seconds: number;
  readonly channels: readonly {
    readonly number: number;
    readonly name: string;
    readonly unit: string;
    readonly min?: number;
    readonly mean?: number;
    readonly max?: number;
    readonly missing?: number;
  }[];
  /**
   * Vertical force in N along the plate's own axis as the file stores it: with its sign (`pressed_is` says which one a load
   * has) and before the zero the file asks for (`zero_n`, which an analysis subtracts).
   */
  readonly force_platforms: readonly {
    readonly number: number;
    readonly name: string;
    readonly type: number;
    readonly unit: 'N';
    readonly min?: number;
    readonly mean?: number;
    readonly max?: number;
    readonly pressed_is?: 'positive' | 'negative';
    readonly zero_n?: number;
    /** Where the force acts while the plate is loaded, in the plate's axes; and on the floor, where its corners say how it lies. */
    readonly pressure_mm?: Pressure & { readonly floor?: Pressure };
  }[];
  /** What the first and the second number of a place on the floor lie along, in the axes of the file. */
  readonly floor_axes?: readonly [LaboratoryAxis, LaboratoryAxis];
  /** All platforms as one, on the floor; absent under two, or where one does not say how it lies. */
  readonly pressure_mm?: Pressure;
  readonly gaps: number;
  readonly forces: readonly {
    readonly from: string;
    readonly part: string;
    readonly confidence: string;
    readonly chosen: boolean;
    readonly reason: string;
  }[];
  readonly reasons: readonly string[];
  readonly notices: readonly { readonly code: string; readonly message: string }[];
}

/** Mean and range of the centre of pressure over the samples that have one, mm. */
type Pressure = PathFigures;

export function describeRecording(label: string, recording: Recording): RecordingDescription {
  const proposal = proposeForces(recording);
  const { plates, floor: lies, combined } = pressureOf(recording);
  const whole = { start: 0, end: recording.sampleCount };
  const together = combined === undefined || plates.length < 2 ? undefined : pathFigures(combined, whole);
  const placeOf = (index: number) => {
    const plate = plates.find((one) => one.platform === index);
    const own = plate && pathFigures(plate, whole);
    if (plate === undefined || own === undefined) return {};
    const floor = plate.floor && pathFigures(plate.floor, whole);
    return { pressure_mm: { ...own, ...(floor === undefined ? {} : { floor }) } };
  };
  const nameOf = (from: { readonly kind: string; readonly index: number }) =>
    from.kind === 'platform' ? `force platform ${from.index + 1}` : (recording.channels[from.index]?.name ?? '');
  return {
    ...(label === '' ? {} : { label }),
    rate_hz: recording.sampleRate,
    rate_from: recording.rateOrigin,
    samples: recording.sampleCount,
    seconds: recording.sampleCount / recording.sampleRate,
    channels: recording.channels.map((channel, i) => ({
      number: i + 1,
      name: channel.name,
      unit: channel.unit,
      ...summary(physicalValues(channel)),
    })),
    force_platforms: recording.platforms.map((platform, i) => ({
      number: i + 1,
      name: platform.name,
      type: platform.type,
      unit: 'N' as const,
      ...platformForce(platform, recording),
      ...placeOf(i),
    })),
    ...(lies === undefined ? {} : { floor_axes: lies.along }),
    ...(together === undefined ? {} : { pressure_mm: together }),
    gaps: recording.gaps.length,
    forces: proposal.candidates.map((one) => ({
      from: nameOf(one.input.from),
      part: one.input.part,
      confidence: one.confidence,
      chosen:
        proposal.selection?.inputs.some(
          (input) => input.from.kind === one.input.from.kind && input.from.index === one.input.from.index,
        ) ?? false,
      reason: one.reason.message,
    })),
    reasons: proposal.reasons.map((one) => one.message),
    notices: recording.notices.map((one) => ({ code: one.code, message: one.message })),
  };
}

function platformForce(platform: ForcePlatform, recording: Recording) {
  if (platform.verticalForce === undefined) return {};
  const stored = storedForce(platform, recording);
  const zero = (stored[0] ?? 0) - (platform.verticalForce[0] ?? 0);
  return {
    ...summary(stored),
    pressed_is: platform.pressSign === 1 ? ('positive' as const) : ('negative' as const),
    ...(Number.isNaN(zero) || zero === 0 ? {} : { zero_n: zero }),
  };
}

/** The force from the plate's channels alone, nothing subtracted. */
function storedForce(platform: ForcePlatform, { channels }: Recording): Float64Array {
  const shares = verticalShares(platform.type, platform.calibration) ?? [];
  const terms = shares.flatMap(({ channel: place, factor }) => {
    const channel = channels[platform.channels[place] ?? -1];
    if (channel === undefined) return [];
    const newtons = platform.type !== 4 && convertible(channel.unit, 'N') ? conversionFactor(channel.unit, 'N') : 1;
    return [{ channel, factor: factor * newtons }];
  });
  return terms.length === 0 ? (platform.verticalForce as Float64Array) : weightedSum(terms);
}

/** Smallest, mean and largest value; missing samples are counted, not averaged. */
function summary(values: Float64Array): { min?: number; mean?: number; max?: number; missing?: number } {
  let min = Number.POSITIVE_INFINITY;
  let max = Number.NEGATIVE_INFINITY;
  let sum = 0;
  let n = 0;
  for (const value of values) {
    if (Number.isNaN(value)) continue;
    if (value < min) min = value;
    if (value > max) max = value;
    sum += value;
    n += 1;
  }
  const missing = values.length - n;
  return { ...(n === 0 ? {} : { min, mean: sum / n, max }), ...(missing === 0 ? {} : { missing }) };
}
