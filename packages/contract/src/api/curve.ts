/**
 * The curve of a trial's recording as one binary answer, so that a long recording arrives in one piece without text.
 *
 * Layout, little-endian: u32 length of a JSON head in bytes, the head (UTF-8, padded with blanks so that data begin at a
 * multiple of 8), then for each series `samples` float64 values in the order of `series`. Values are exact: newtons (or the
 * unit named) after calibration, unfiltered.
 */
export interface CurveHead {
  readonly sampleRate: number;
  readonly samples: number;
  readonly unit: string;
  /** What the reader of the file had to decide or repair. */
  readonly notices: readonly { readonly code: string; readonly message: string }[];
  readonly series: readonly CurveSeries[];
  readonly gaps: {
    readonly filled: readonly (readonly [number, number])[];
    readonly open: readonly (readonly [number, number])[];
  };
}

export interface CurveSeries {
  readonly name: string;
  /** `total`, `left` and `right` are those of the analysis; `plate` is one input channel. */
  readonly of: 'total' | 'left' | 'right' | 'plate';
}

/** Head and series of a decoded curve; the arrays share the answer's memory. */
export interface Curve extends CurveHead {
  readonly values: readonly Float64Array[];
}

/** Media type of the binary answer. */
export const curveMediaType = 'application/vnd.sthene.curve';

/** Writes a curve. `values[i]` belongs to `head.series[i]` and has `head.samples` numbers. */
export function encodeCurve(head: CurveHead, values: readonly Float64Array[]): Uint8Array {
  const text = new TextEncoder().encode(JSON.stringify(head));
  const start = Math.ceil((4 + text.length) / 8) * 8;
  const bytes = new Uint8Array(start + 8 * head.samples * values.length);
  new DataView(bytes.buffer).setUint32(0, start - 4, true);
  bytes.fill(0x20, 4, start);
  bytes.set(text, 4);
  values.forEach((series, i) => {
    if (series.length !== head.samples)
      throw new RangeError(`series ${i} has ${series.length} values, not ${head.samples}`);
    new Float64Array(bytes.buffer, start + 8 * head.samples * i, head.samples).set(series);
  });
  return bytes;
}

/** Reads what `encodeCurve` wrote. Throws RangeError on a truncated answer. */
export function decodeCurve(buffer: ArrayBuffer): Curve {
  const headLength = new DataView(buffer).getUint32(0, true);
  const head = JSON.parse(new TextDecoder().decode(new Uint8Array(buffer, 4, headLength))) as CurveHead;
  const start = 4 + headLength;
  if (buffer.byteLength < start + 8 * head.samples * head.series.length)
    throw new RangeError('the curve is shorter than its head says');
  const values = head.series.map((_, i) => new Float64Array(buffer, start + 8 * head.samples * i, head.samples));
  return { ...head, values };
}
