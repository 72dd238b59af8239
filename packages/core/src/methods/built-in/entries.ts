import { registry } from '../../registry.ts';
import type { Method } from '../method.ts';
import { fiveSd } from './five-sd.ts';
import { fixed75 } from './fixed-75.ts';
import { lowPass50 } from './low-pass-50.ts';
import { standard } from './standard.ts';

/** A built-in method under the short id by which a command line or an address names it. */
export interface MethodEntry {
  readonly id: string;
  readonly method: Method;
}

/** The built-in methods; the first is the default. */
export const methodRegistry = registry<MethodEntry>('method', [
  { id: 'standard', method: standard },
  { id: 'five-sd', method: fiveSd },
  { id: 'fixed-75', method: fixed75 },
  { id: 'low-pass-50', method: lowPass50 },
]);

/** The method used when none is named. */
export const defaultMethod: Method = standard;
