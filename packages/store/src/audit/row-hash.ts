import { runningSha256, sha256Hex } from '../hash.ts';
import { canonicalJson } from '../json.ts';
import { isWellFormed } from '../values.ts';

/** From this length on a text of a row is hashed as bytes; shorter ones are not worth it. */
const long = 4_096;

/** Hash of a row that only grows, as its audit entry keeps it under `sha256`: SHA-256 over its canonical JSON. */
export function rowHash(row: object): string {
  const members = Object.entries(row);
  if (!members.some(([, value]) => typeof value === 'string' && value.length >= long))
    return sha256Hex(canonicalJson(row));
  // The same bytes, without the document of a result being written as text inside a text first.
  members.sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
  const hash = runningSha256();
  let before = '{';
  for (const [name, value] of members) {
    if (value === undefined) continue;
    hash.update(`${before}${JSON.stringify(name)}:`);
    hash.update(typeof value === 'string' && value.length >= long ? jsonBytes(value) : canonicalJson(value));
    before = ',';
  }
  hash.update('}');
  return hash.hex();
}

const encoder = new TextEncoder();
let buffer = new Uint8Array(0);

/** The bytes of a text's JSON, in a buffer that the next call writes over. */
function jsonBytes(text: string): Uint8Array | string {
  if (!isWellFormed(text)) return JSON.stringify(text);
  const bytes = encoder.encode(text);
  const most = 2 * bytes.length + 2;
  if (buffer.length < most) buffer = new Uint8Array(2 * most);
  let at = 0;
  buffer[at++] = 34;
  for (let i = 0; i < bytes.length; i++) {
    const byte = bytes[i] as number;
    if (byte < 32) return JSON.stringify(text);
    // Quotes and backslashes; other characters are written as they are.
    if (byte === 34 || byte === 92) buffer[at++] = 92;
    buffer[at++] = byte;
  }
  buffer[at++] = 34;
  return buffer.subarray(0, at);
}
