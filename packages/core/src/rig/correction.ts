import type { CalibrationLine } from './calibration-line.ts';

/** How the force of one plate is put right: true = (shown - offset) / gain. */
export interface PlateCorrection {
  readonly plate: string;
  /** Slope of what was shown on the true force. */
  readonly gain: number;
  /** What was shown under no force, N. */
  readonly offset: number;
}

/** Newtons per raw unit and raw value at no force, as a channel has them. */
export interface ChannelScale {
  readonly scale: number;
  readonly offset: number;
}

/** The force a plate bears, N, from the one it shows. */
export const correctedForce = (shown: number, { gain, offset }: PlateCorrection): number => (shown - offset) / gain;

/** The correction a line asks for. */
export const correctionOf = (plate: string, { slope, offset }: CalibrationLine): PlateCorrection => ({
  plate,
  gain: slope,
  offset,
});

/** One correction after another, as a single one: the second was found on readings the first had put right already. */
export const chained = (first: PlateCorrection, second: PlateCorrection): PlateCorrection => ({
  plate: first.plate,
  gain: first.gain * second.gain,
  offset: first.offset + first.gain * second.offset,
});

/**
 * A channel with the correction in it: (raw - offset) scale becomes (raw - offset') scale', so raw samples stay as they are. The
 * scale must be in newtons per raw unit.
 */
export function correctedScale({ scale, offset }: ChannelScale, correction: PlateCorrection): ChannelScale {
  return { scale: scale / correction.gain, offset: offset + correction.offset / scale };
}
