import { sha256Hex } from '../hash.ts';
import { canonicalJson } from '../json.ts';

/** Hash of a row that only grows, as its audit entry keeps it under `sha256`. */
export function rowHash(row: object): string {
  return sha256Hex(canonicalJson(row));
}
