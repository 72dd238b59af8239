import type { RawSamples } from '../recording.ts';

/** What the vertical force needs of a channel: its samples and how they become a physical value. */
export interface ScaledSamples {
  readonly raw: RawSamples;
  readonly scale: number;
  readonly offset: number;
}

/** A share of one channel in a vertical force: N per physical unit of the channel. */
export interface VerticalTerm {
  readonly channel: ScaledSamples;
  readonly factor: number;
}

/** Which of a plate's channels make its vertical force, 0-based within the plate, with their factors; null if unknown. */
export function verticalShares(
  type: number,
  calibration?: readonly (readonly number[])[],
): readonly { readonly channel: number; readonly factor: number }[] | null {
  if (type === 1 || type === 2) return [{ channel: 2, factor: 1 }];
  if (type === 3) return [4, 5, 6, 7].map((channel) => ({ channel, factor: 1 }));
  if (type === 4) return calibration?.[2]?.map((factor, channel) => ({ channel, factor })) ?? null;
  return null;
}

/**
 * Vertical force of a plate along its own axis, N: the weighted sum of its channels' physical values, with the sign the
 * source gives. A missing sample (NaN) in any channel with a share makes the force NaN there.
 *
 * @param terms at least one, all of equal length
 */
export function verticalForce(terms: readonly VerticalTerm[]): Float64Array {
  const force = new Float64Array(terms[0]?.channel.raw.length ?? 0);
  for (const { channel, factor } of terms) {
    if (factor === 0) continue;
    const { raw, scale, offset } = channel;
    for (let i = 0; i < force.length; i++) force[i]! += factor * (((raw[i] as number) - offset) * scale);
  }
  return force;
}

/** A plate that never carries this much, N, says nothing about its sign. */
const leastLoad = 20;

/**
 * Which way a plate answers when it is pressed: the side on which the loaded samples hold more energy (sum of squares).
 *
 * A person standing pushes a plate far more than noise, drift or an unloaded offset pulls it. Only samples of at least 20 N
 * that differ from the one before count, so that a converter which stopped and repeats one value does not decide; where
 * nothing changes, all samples do. A plate never loaded gets -1, the sign of the z-down axes of the standard.
 */
export function pressSign(force: Float64Array): 1 | -1 {
  const energy = { changing: 0, any: 0 };
  for (let i = 0; i < force.length; i++) {
    const value = force[i] as number;
    if (!(Math.abs(value) >= leastLoad)) continue;
    const signed = Math.sign(value) * value * value;
    if (i === 0 || value !== force[i - 1]) energy.changing += signed;
    energy.any += signed;
  }
  return (energy.changing !== 0 ? energy.changing : energy.any) > 0 ? 1 : -1;
}
