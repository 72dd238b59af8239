import type { FieldType } from '../../description.ts';

/** Reads one number at a place. */
export type ReadNumber = (view: DataView, at: number) => number;

/** How a number of a type is read; one function for each, so that a loop over fields of one type calls one thing. */
export function numberReader(type: FieldType, little: boolean): ReadNumber {
  switch (type) {
    case 'u8':
      return (view, at) => view.getUint8(at);
    case 'i8':
      return (view, at) => view.getInt8(at);
    case 'u16':
      return (view, at) => view.getUint16(at, little);
    case 'i16':
      return (view, at) => view.getInt16(at, little);
    case 'u24':
      return (view, at) => unsigned24(view, at, little);
    case 'i24':
      return (view, at) => (unsigned24(view, at, little) << 8) >> 8;
    case 'u32':
      return (view, at) => view.getUint32(at, little);
    case 'i32':
      return (view, at) => view.getInt32(at, little);
    case 'f32':
      return (view, at) => view.getFloat32(at, little);
    case 'f64':
      return (view, at) => view.getFloat64(at, little);
  }
}

/** Reads one number of a frame. */
export const readField = (view: DataView, at: number, type: FieldType, little: boolean): number =>
  numberReader(type, little)(view, at);

/** Writes one number; whole types take its lowest bits. */
export function writeField(view: DataView, at: number, type: FieldType, little: boolean, value: number): void {
  const bits = value & 0xffffff;
  if (type === 'u8' || type === 'i8') view.setUint8(at, value);
  else if (type === 'u16' || type === 'i16') view.setUint16(at, value, little);
  else if (type === 'u32' || type === 'i32') view.setUint32(at, value, little);
  else if (type === 'f32') view.setFloat32(at, value, little);
  else if (type === 'f64') view.setFloat64(at, value, little);
  else {
    view.setUint8(at + 1, (bits >> 8) & 0xff);
    view.setUint8(little ? at : at + 2, bits & 0xff);
    view.setUint8(little ? at + 2 : at, bits >> 16);
  }
}

function unsigned24(view: DataView, at: number, little: boolean): number {
  const a = view.getUint8(at);
  const b = view.getUint8(at + 1);
  const c = view.getUint8(at + 2);
  return little ? a | (b << 8) | (c << 16) : c | (b << 8) | (a << 16);
}
