import type { Method } from '../method.ts';
import { deepFreeze } from './freeze.ts';
import { standard } from './standard.ts';

/** For comparison with filtered data, and for plates with ringing. */
export const lowPass50: Method = deepFreeze({
  ...standard,
  name: 'Low-pass 50 Hz',
  version: 1,
  summary:
    'As the standard method, after a zero-lag Butterworth low-pass of 50 Hz, which moves the onset a little earlier.',
  filter: { kind: 'butterworth-zero-lag', cutoff: 50 },
});
