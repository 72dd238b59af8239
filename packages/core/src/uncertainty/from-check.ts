import type { RigCheckResult } from '../rig/judge-check.ts';
import type { CheckedRig } from './sources.ts';

/**
 * What a check with known masses says of a rig, as the uncertainty of a trial takes it.
 *
 * `gain` is what all plates share (masses and gravity), `plateGain` what the worst plate has of its own (the error of its slope, and
 * what of its gain was left uncorrected); the additive parts are those of the worst plate. Beyond the largest force that every plate
 * was checked to, the check's own bound grows as T2(2 F / L - 1); taken here is its chord up to twice that force, 16 u / L for each
 * newton beyond, which lies above it up to there.
 *
 * @param corrected the gain it found was put right, so that nothing of it is left in the readings
 * @returns undefined where the check found no line for every plate
 */
export function checkedRigOf(result: RigCheckResult, corrected: boolean): CheckedRig | undefined {
  if (result.uncertainty === undefined || result.checkedTo === 0) return undefined;
  const { rig, plates } = result.uncertainty;
  const { masses, gravity, slope, uncorrected } = rig.parts;
  const repeatability = Math.max(...plates.map((plate) => plate.repeatability));
  const linearity = Math.max(...plates.map((plate) => plate.linearity));
  return {
    gain: Math.hypot(masses, gravity),
    plateGain: Math.hypot(slope, corrected ? 0 : uncorrected),
    repeatability,
    linearity,
    largestForce: result.checkedTo,
    growth: (16 * Math.hypot(repeatability, linearity)) / result.checkedTo,
  };
}
