/**
 * The payload of a samples frame: u32 samples, u16 channels, u8 number type, u8 zero, then the values, all samples of the
 * first channel first. The narrowest type that gives back every value exactly is taken, so nothing is rounded.
 */
const types = { int16: 1, int32: 2, float32: 3, float64: 4 } as const;
type NumberType = keyof typeof types;
const widths: Readonly<Record<NumberType, number>> = { int16: 2, int32: 4, float32: 4, float64: 8 };
const typeOf: ReadonlyMap<number, NumberType> = new Map(
  Object.entries(types).map(([type, code]) => [code, type as NumberType]),
);
const headBytes = 8;

function narrowest(values: Float64Array): NumberType {
  let int16 = true;
  let int32 = true;
  let float32 = true;
  for (const value of values) {
    // -0 is not 0 to a reader of bits, and NaN equals nothing: both end up in the type that keeps them.
    const whole = (value | 0) === value && !(value === 0 && 1 / value < 0);
    int32 &&= whole;
    int16 &&= whole && value >= -32768 && value <= 32767;
    float32 &&= Math.fround(value) === value;
    if (!(int32 || float32)) return 'float64';
  }
  return int16 ? 'int16' : int32 ? 'int32' : float32 ? 'float32' : 'float64';
}

/** @param values `values[c * count + i]` is sample i of channel c */
export function encodeSamples(count: number, values: Float64Array): Uint8Array {
  const type = narrowest(values);
  const width = widths[type];
  const bytes = new Uint8Array(headBytes + values.length * width);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, count, true);
  view.setUint16(4, count === 0 ? 0 : values.length / count, true);
  bytes[6] = types[type];
  for (let i = 0, at = headBytes; i < values.length; i++, at += width) {
    const value = values[i] as number;
    if (type === 'int16') view.setInt16(at, value, true);
    else if (type === 'int32') view.setInt32(at, value, true);
    else if (type === 'float32') view.setFloat32(at, value, true);
    else view.setFloat64(at, value, true);
  }
  return bytes;
}

/** Undefined when the payload breaks a rule of the format. */
export function decodeSamples(payload: Uint8Array): { count: number; values: Float64Array } | undefined {
  if (payload.length < headBytes) return undefined;
  const view = new DataView(payload.buffer, payload.byteOffset, payload.length);
  const count = view.getUint32(0, true);
  const channels = view.getUint16(4, true);
  const type = typeOf.get(payload[6] as number);
  if (type === undefined) return undefined;
  const width = widths[type];
  if (payload.length !== headBytes + count * channels * width) return undefined;
  const values = new Float64Array(count * channels);
  for (let i = 0, at = headBytes; i < values.length; i++, at += width) {
    if (type === 'int16') values[i] = view.getInt16(at, true);
    else if (type === 'int32') values[i] = view.getInt32(at, true);
    else if (type === 'float32') values[i] = view.getFloat32(at, true);
    else values[i] = view.getFloat64(at, true);
  }
  return { count, values };
}
