/** Writers pad their last run; more than this is no padding. */
const padding = 4096;

/**
 * Checks run-length encoded levels or indices before they are decoded: the decoder would write as many values as a run
 * claims, so a forged run could fill all memory.
 *
 * @param bytes the encoded runs
 * @param width bits of a value
 * @param count values expected
 * @returns false when a run claims more values than are expected or the bytes end early
 *
 * Source: Apache Parquet format, "Run Length Encoding / Bit-Packing Hybrid".
 */
export function runsAreSound(bytes: Uint8Array, width: number, count: number): boolean {
  if (!(width >= 0 && width <= 32)) return false;
  let at = 0;
  let seen = 0;
  while (seen < count) {
    let header = 0;
    let factor = 1;
    for (;;) {
      const byte = bytes[at++];
      if (byte === undefined || factor > 2 ** 28) return false;
      header += (byte & 0x7f) * factor;
      if (byte < 0x80) break;
      factor *= 128;
    }
    const packed = header % 2 === 1;
    const run = packed ? Math.floor(header / 2) * 8 : header / 2;
    // Empty runs occur in good files; they still consume bytes, so the loop ends.
    if (seen + run > count + padding) return false;
    at += packed ? (run / 8) * width : Math.ceil(width / 8);
    if (at > bytes.length) return false;
    seen += run;
  }
  return true;
}
