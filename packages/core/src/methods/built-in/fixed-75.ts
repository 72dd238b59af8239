import type { Method } from '../method.ts';
import { deepFreeze } from './freeze.ts';
import { standard } from './standard.ts';

/** For comparison with data that were read with a fixed threshold. */
export const fixed75: Method = deepFreeze({
  ...standard,
  name: 'Fixed 75 N',
  version: 1,
  summary: 'As the standard method, with the onset where force exceeds the baseline by 75 N.',
  onset: { rule: 'fixed-newton-75', version: 1 },
});
