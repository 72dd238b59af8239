import type { Side } from './forces.ts';

/** What a channel's name gives away. */
export interface NameSigns {
  readonly side: Side | 'total';
  /** `force` names a force without a direction. */
  readonly component: 'vertical' | 'horizontal' | 'force' | 'other' | 'unknown';
}

const sides: Readonly<Record<string, Side | 'total'>> = {
  left: 'left',
  l: 'left',
  lt: 'left',
  right: 'right',
  r: 'right',
  rt: 'right',
  total: 'total',
  sum: 'total',
  both: 'total',
  combined: 'total',
  net: 'total',
};

const vertical = new Set(['fz', 'vertical', 'vert', 'vgrf', 'grfz', 'grfv', 'fv', 'forcez', 'zforce']);
const horizontal = new Set([
  'fx',
  'fy',
  'grfx',
  'grfy',
  'shear',
  'anterior',
  'posterior',
  'medial',
  'lateral',
  'horizontal',
  'ap',
  'ml',
]);
const other = new Set([
  ...['torque', 'moment', 'mx', 'my', 'mz', 'tz', 'px', 'py', 'pz', 'cop', 'copx', 'copy', 'position', 'velocity'],
  ...[
    'acceleration',
    'angle',
    'emg',
    'time',
    'trigger',
    'sync',
    'temperature',
    'displacement',
    'power',
    'frame',
    'index',
  ],
]);
const force = new Set([
  'force',
  'forces',
  'grf',
  'load',
  'loadcell',
  'newton',
  'newtons',
  'f',
  'weight',
  'plate',
  'pull',
]);

/** Splits a name into lower-case words: at blanks and signs, at lower-to-upper case, and between letters and digits. */
export function wordsOf(name: string): string[] {
  return name
    .replace(/([a-z\d])([A-Z])/gu, '$1 $2')
    .replace(/([A-Z])([A-Z][a-z])/gu, '$1 $2')
    .replace(/([A-Za-z])(\d)/gu, '$1 $2')
    .replace(/(\d)([A-Za-z])/gu, '$1 $2')
    .toLowerCase()
    .split(/[^\p{L}\d]+/u)
    .filter((word) => word !== '');
}

/**
 * Reads side and component out of a channel's name.
 *
 * `Fz`, `vertical`, `vGRF` are vertical. The pair `force ... vy` is vertical where a file lays y upward, as motion-analysis
 * exports do; `Fy`, `vx`, `vz` beside it are not. Moments, positions, times are `other`.
 */
export function readName(name: string): NameSigns {
  const words = wordsOf(name);
  const side = words.map((word) => sides[word]).find((found) => found !== undefined) ?? 'none';
  const has = (set: ReadonlySet<string>) => words.some((word) => set.has(word));
  if (has(other)) return { side, component: 'other' };
  if (has(vertical)) return { side, component: 'vertical' };
  if (has(force)) {
    const last = words.at(-1) ?? '';
    if (last === 'vy' || last === 'z') return { side, component: 'vertical' };
    if (['vx', 'vz', 'x', 'y'].includes(last)) return { side, component: 'horizontal' };
    return { side, component: 'force' };
  }
  return { side, component: has(horizontal) ? 'horizontal' : 'unknown' };
}
