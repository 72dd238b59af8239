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
