import type { Input } from './plain/types.ts';

/** A one-plate long pull with body weight; tests say only what differs. */
export function inputOf(fs: number, total: Float64Array, more: Partial<Input> = {}): Input {
  return {
    fs,
    total,
    plates: [{ side: 'none', force: total }],
    gaps: { filled: [], open: [] },
    gravity: 9.80665,
    load: 'weight',
    limbs: 'any',
    pull: { planned: 5, warnUnder: 2, failUnder: 1 },
    onsetRule: 'five-sd',
    efforts: 'largest',
    allometricExponent: 2 / 3,
    baselineSeconds: 1,
    anchorSeconds: 0.25,
    ...more,
  };
}
