/**
 * What the last check of a rig with known masses says of its plates, as standard uncertainties (k = 1). Forces in N, of one plate.
 *
 * A rig whose check does not tell the plates apart leaves `plateGain` out: that part is then named as not known.
 */
export interface CheckedRig {
  /** Relative, common to all forces of all plates: masses, local g, buoyancy, one calibration for all. */
  readonly gain: number;
  /** Relative, of one plate's own gain, independent of the other plates'. */
  readonly plateGain?: number;
  /** One loading against the next: the same for every sample of a loading. */
  readonly repeatability: number;
  /** Departure from the straight line, hysteresis included, at any one force. */
  readonly linearity: number;
  /** The largest force a plate was checked with. */
  readonly largestForce: number;
  /** Relative, of what a plate shows beyond that force. */
  readonly growth: number;
}

/** Where W comes from and how sure it is. */
export interface WeightSource {
  /** Standard uncertainty of W, N: SD of successive 1 s means. */
  readonly standard: number;
  /** How many 1 s means it is the SD of. */
  readonly seconds: number;
  /** The weighing itself; the standing before the effort, after the landing of a jump, or one second of each. */
  readonly of: 'weighing' | 'standing-before' | 'standing-after' | 'standing-both';
}

/** Single-sample noise, SD in the unit of the forces; sides only where both were measured. */
export interface SampleNoise {
  readonly total: number;
  readonly left?: number;
  readonly right?: number;
}

/** What the uncertainty of a trial's values is made of. What is absent is not known, which is not the same as zero. */
export interface UncertaintySources {
  /** Absent: no check of the rig is known. */
  readonly rig?: CheckedRig;
  /** Absent: W was given, or nobody stood still for two seconds. */
  readonly weight?: WeightSource;
  readonly noise?: SampleNoise;
  /** SD of the time offset between plates, s; 0 where all run on one clock. Absent: not known. */
  readonly synchronisation?: number;
}
