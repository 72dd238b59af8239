/** What a unit measures; values convert only within one dimension. */
export type Dimension =
  | 'force'
  | 'torque'
  | 'mass'
  | 'time'
  | 'length'
  | 'angle'
  | 'voltage'
  | 'frequency'
  | 'ratio'
  | 'acceleration'
  | 'force-rate'
  | 'impulse'
  | 'force-per-mass'
  | 'velocity'
  | 'power'
  | 'power-per-mass'
  | 'stiffness';

/** One unit: its UCUM code, and value in SI = value * factor. */
export interface Unit {
  /** UCUM, case-sensitive. */
  readonly code: string;
  readonly dimension: Dimension;
  readonly factor: number;
  /** Usual spellings besides the code, compared without case, blanks and brackets. */
  readonly spellings: readonly string[];
}

/** Standard gravity (3rd CGPM, 1901), which defines the kilogram-force and the pound-force. */
const g = 9.80665;
/** International pound (1959), exact. */
const pound = 0.45359237;

const unit = (code: string, dimension: Dimension, factor: number, ...spellings: string[]): Unit => ({
  code,
  dimension,
  factor,
  spellings,
});

/**
 * Every unit the product knows, by UCUM code (The Unified Code for Units of Measure, version 2.2).
 * A bare `g` is the gram and `lb` read as force, because the channels of a recording are forces.
 */
export const units: readonly Unit[] = [
  unit('N', 'force', 1, 'newton', 'newtons', 'nt'),
  unit('kN', 'force', 1000, 'kilonewton', 'kilonewtons'),
  unit('mN', 'force', 1e-3, 'millinewton', 'millinewtons'),
  unit('daN', 'force', 10, 'decanewton', 'dekanewton', 'decanewtons'),
  unit('kgf', 'force', g, 'kp', 'kilopond', 'kiloponds', 'kilogramforce', 'kgforce'),
  unit('gf', 'force', g / 1000, 'pond', 'gramforce'),
  unit('[lbf_av]', 'force', pound * g, 'lbf', 'lb', 'lbs', 'lbsf', 'poundforce', 'poundsforce', 'pounds'),
  unit('N.m', 'torque', 1, 'nm', 'n*m', 'n·m', 'n⋅m', 'nxm', 'n-m', 'newtonmeter', 'newtonmetre', 'newtonmeters'),
  unit('N.mm', 'torque', 1e-3, 'nmm', 'n*mm', 'n·mm', 'n⋅mm', 'newtonmillimeter', 'newtonmillimetre'),
  unit('N.cm', 'torque', 1e-2, 'ncm', 'n*cm', 'n·cm', 'n⋅cm'),
  unit('kN.m', 'torque', 1000, 'knm', 'kn*m', 'kn·m', 'kn⋅m'),
  unit('kg', 'mass', 1, 'kilogram', 'kilograms', 'kilo', 'kilos', 'kgs'),
  unit('g', 'mass', 1e-3, 'gram', 'grams', 'gramme'),
  unit('[lb_av]', 'mass', pound, 'poundmass', 'lbm'),
  unit('s', 'time', 1, 'sec', 'secs', 'second', 'seconds'),
  unit('ms', 'time', 1e-3, 'msec', 'msecs', 'millisecond', 'milliseconds'),
  unit('us', 'time', 1e-6, 'µs', 'μs', 'usec', 'microsecond', 'microseconds'),
  unit('ns', 'time', 1e-9, 'nanosecond', 'nanoseconds'),
  unit('min', 'time', 60, 'minute', 'minutes'),
  unit('h', 'time', 3600, 'hour', 'hours', 'hr'),
  unit('m', 'length', 1, 'meter', 'metre', 'meters', 'metres'),
  unit('cm', 'length', 1e-2, 'centimeter', 'centimetre', 'centimeters', 'centimetres'),
  unit('mm', 'length', 1e-3, 'millimeter', 'millimetre', 'millimeters', 'millimetres'),
  unit('[in_i]', 'length', 0.0254, 'in', 'inch', 'inches'),
  unit('rad', 'angle', 1, 'radian', 'radians'),
  unit('deg', 'angle', Math.PI / 180, '°', 'degree', 'degrees'),
  unit('V', 'voltage', 1, 'volt', 'volts'),
  unit('mV', 'voltage', 1e-3, 'millivolt', 'millivolts'),
  unit('uV', 'voltage', 1e-6, 'µV', 'μV', 'microvolt', 'microvolts'),
  unit('Hz', 'frequency', 1, 'hertz', '1/s', 's-1'),
  unit('kHz', 'frequency', 1000, 'kilohertz'),
  unit('1', 'ratio', 1, 'ratio', 'none', 'dimensionless'),
  unit('%', 'ratio', 0.01, 'percent', 'pct'),
  unit('m/s2', 'acceleration', 1, 'm/s^2', 'm/s²', 'm.s-2'),
  unit('N/s', 'force-rate', 1, 'n.s-1', 'n·s-1'),
  unit('kN/s', 'force-rate', 1000),
  unit('N.s', 'impulse', 1, 'n*s', 'n·s', 'n⋅s', 'newtonsecond', 'newtonseconds'),
  unit('N/kg', 'force-per-mass', 1, 'n.kg-1', 'n·kg-1'),
  unit('m/s', 'velocity', 1, 'm.s-1', 'm·s-1'),
  unit('W', 'power', 1, 'watt', 'watts'),
  unit('W/kg', 'power-per-mass', 1, 'w.kg-1', 'w·kg-1'),
  unit('N/m', 'stiffness', 1, 'n.m-1', 'n·m-1'),
  unit('kN/m', 'stiffness', 1000),
];
