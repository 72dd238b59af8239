/** Density of air at about 20 degrees and sea level, kg/m^3 (common practice in weighing: OIML R 111, from memory). */
export const usualAirDensity = 1.2;

/** Density of steel weights, kg/m^3 (conventional value of OIML R 111, from memory). */
export const steelDensity = 8000;

/**
 * Force a mass at rest exerts on a plate in air, N: F = m g (1 - air / density).
 *
 * @param mass kg
 * @param gravity local gravity, m/s^2
 * @param density of the mass, kg/m^3
 * @param airDensity kg/m^3
 * Source: Archimedes; the constants as OIML R 111 uses them.
 */
export function deadWeight(
  mass: number,
  gravity: number,
  density: number = steelDensity,
  airDensity: number = usualAirDensity,
): number {
  return mass * gravity * (1 - airDensity / density);
}
