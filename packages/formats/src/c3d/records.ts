/** One parameter to be written; data in the order of the file (first dimension fastest). */
export interface ParameterRecord {
  readonly name: string;
  readonly type: -1 | 1 | 2 | 4;
  readonly dimensions: readonly number[];
  readonly data: Uint8Array;
}

const ascii = new TextEncoder();

/** Integers (16 bit, written as they are or as the same bits unsigned). */
export function integers(name: string, values: readonly number[], dimensions: readonly number[]): ParameterRecord {
  const data = new Uint8Array(2 * values.length);
  const view = new DataView(data.buffer);
  values.forEach((value, i) => {
    view.setUint16(2 * i, value & 0xffff, true);
  });
  return { name, type: 2, dimensions, data };
}

/** 32-bit floats. */
export function floats(name: string, values: readonly number[], dimensions: readonly number[]): ParameterRecord {
  const data = new Uint8Array(4 * values.length);
  const view = new DataView(data.buffer);
  values.forEach((value, i) => {
    view.setFloat32(4 * i, value, true);
  });
  return { name, type: 4, dimensions, data };
}

/** UTF-8 bytes cut to `width` without splitting a character. */
function cut(text: string, width: number): Uint8Array {
  let bytes = ascii.encode(text);
  for (let end = text.length; bytes.length > width; ) bytes = ascii.encode(text.slice(0, --end));
  return bytes;
}

/** Strings of equal width, blank padded: dimensions [width, count]. */
export function strings(name: string, values: readonly string[], widest = 100): ParameterRecord {
  const parts = values.map((value) => cut(value, widest));
  const width = Math.max(1, ...parts.map((part) => part.length));
  const data = new Uint8Array(width * values.length).fill(0x20);
  parts.forEach((part, i) => {
    data.set(part, i * width);
  });
  return { name, type: -1, dimensions: [width, values.length], data };
}

/** One string: dimensions [length]. */
export function single(name: string, value: string): ParameterRecord {
  const data = ascii.encode(value);
  return { name, type: -1, dimensions: [data.length], data };
}

/** Long ASCII text over several parameters NAME, NAME2, ... of at most 255 rows of 127 bytes, blank padded at the end. */
export function longText(name: string, text: string): ParameterRecord[] {
  const width = 127;
  const bytes = ascii.encode(text);
  const most = width * 255;
  const records: ParameterRecord[] = [];
  for (let at = 0, part = 1; at < bytes.length; at += most, part++) {
    const slice = bytes.subarray(at, at + most);
    const rows = Math.ceil(slice.length / width);
    const data = new Uint8Array(rows * width).fill(0x20);
    data.set(slice);
    records.push({ name: part === 1 ? name : `${name}${part}`, type: -1, dimensions: [width, rows], data });
  }
  return records;
}

/** A list of more than 255 entries as NAME, NAME2, ...; `make` builds the record of one part. */
export function inParts<T>(
  name: string,
  values: readonly T[],
  make: (name: string, part: readonly T[]) => ParameterRecord,
): ParameterRecord[] {
  if (values.length === 0) return [make(name, [])];
  return Array.from({ length: Math.ceil(values.length / 255) }, (_, i) =>
    make(i === 0 ? name : `${name}${i + 1}`, values.slice(255 * i, 255 * (i + 1))),
  );
}

function recordBytes(name: string, id: number, body: Uint8Array): Uint8Array {
  const label = ascii.encode(name);
  const bytes = new Uint8Array(2 + label.length + 2 + body.length);
  bytes[0] = label.length;
  bytes[1] = id & 0xff;
  bytes.set(label, 2);
  // The offset counts from its own first byte to the next record.
  new DataView(bytes.buffer).setInt16(2 + label.length, 2 + body.length, true);
  bytes.set(body, 4 + label.length);
  return bytes;
}

/** A group record without a description. */
export const groupBytes = (name: string, id: number): Uint8Array => recordBytes(name, -id, Uint8Array.of(0));

/** A parameter record without a description. */
export function parameterBytes(record: ParameterRecord, id: number): Uint8Array {
  const { type, dimensions, data } = record;
  const body = new Uint8Array(2 + dimensions.length + data.length + 1);
  body[0] = type & 0xff;
  body[1] = dimensions.length;
  body.set(dimensions, 2);
  body.set(data, 2 + dimensions.length);
  return recordBytes(record.name, id, body);
}
