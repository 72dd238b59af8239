import type { Method } from '../method.ts';
import { deepFreeze } from './freeze.ts';
import { standard } from './standard.ts';

/** For comparison with published values, most of which rest on this criterion. */
export const fiveSd: Method = deepFreeze({
  ...standard,
  name: 'Five SD',
  version: 1,
  summary:
    'As the standard method, with the published criterion: onset where force exceeds the mean of the quiet second by five of its standard deviations.',
  onset: { rule: 'five-sd', version: 1 },
});
