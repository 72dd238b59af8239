/** Standard gravity, m/s^2 (3rd CGPM, 1901). Used when a site has no value of its own. */
export const standardGravity = 9.80665;

/** Constants of Somigliana's formula: gravity at the equator (m/s^2), k, and the squared eccentricity of the ellipsoid. */
export interface NormalGravityConstants {
  readonly equator: number;
  readonly k: number;
  readonly eccentricitySquared: number;
}

/** WGS 84 (NIMA TR8350.2, 3rd edition); constants from memory in the methods reference. */
export const wgs84: NormalGravityConstants = {
  equator: 9.7803253359,
  k: 0.00193185265241,
  eccentricitySquared: 0.00669437999013,
};

/** An older edition of WGS 84; differs by 1.4e-6 m/s^2. */
export const wgs84Early: NormalGravityConstants = {
  equator: 9.7803267714,
  k: 0.00193185138639,
  eccentricitySquared: 0.00669437999013,
};

/**
 * Gravity on or above the WGS 84 ellipsoid, m/s^2, by Somigliana's formula and its second-order height correction.
 *
 * g0 = ge (1 + k sin^2 p) / sqrt(1 - e^2 sin^2 p); g = g0 (1 - (2/a)(1 + f + m - 2 f sin^2 p) h + 3 h^2 / a^2)
 *
 * @param latitude geographic latitude, degrees
 * @param height above the ellipsoid, m
 * Source: NIMA TR8350.2, 3rd edition.
 */
export function normalGravity(latitude: number, height = 0, constants: NormalGravityConstants = wgs84): number {
  const semiMajorAxis = 6_378_137;
  const flattening = 1 / 298.257223563;
  const m = 0.00344978650684;
  const s2 = sineSquared(latitude);
  const onEllipsoid = (constants.equator * (1 + constants.k * s2)) / Math.sqrt(1 - constants.eccentricitySquared * s2);
  const slope = (2 / semiMajorAxis) * (1 + flattening + m - 2 * flattening * s2);
  return onEllipsoid * (1 - slope * height + (3 * height * height) / (semiMajorAxis * semiMajorAxis));
}

/**
 * Gravity by the formula of European weighing practice (WELMEC gravity zones), m/s^2.
 *
 * g = 9.780318 (1 + 0.0053024 sin^2 p - 0.0000058 sin^2 2p) - 0.000003085 H
 *
 * @param latitude degrees
 * @param altitude above sea level, m
 */
export function weighingGravity(latitude: number, altitude = 0): number {
  const sines = 0.0053024 * sineSquared(latitude) - 0.0000058 * sineSquared(2 * latitude);
  return 9.780318 * (1 + sines) - 0.000003085 * altitude;
}

/** Mass in kg of a weight in N under gravity in m/s^2. */
export const massOf = (weight: number, gravity: number): number => weight / gravity;

function sineSquared(degrees: number): number {
  const sine = Math.sin((degrees * Math.PI) / 180);
  return sine * sine;
}
