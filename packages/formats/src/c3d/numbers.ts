/** The three ways a C3D file stores numbers, by the processor byte of its parameter section. */
export type Processor = 'intel' | 'dec' | 'mips';

/** Processor byte to number format; anything else is not a C3D file this standard describes. */
export function processorOf(byte: number): Processor | null {
  if (byte === 84) return 'intel';
  if (byte === 85) return 'dec';
  if (byte === 86) return 'mips';
  return null;
}

const scratch = new DataView(new ArrayBuffer(4));

/** A VAX F-floating number given as the 32 bits that remain after its two 16-bit words are swapped. */
function vaxFloat(bits: number): number {
  const exponent = (bits >>> 23) & 0xff;
  if (exponent === 0) return 0;
  if (exponent > 2) {
    // Same layout as IEEE, exponent larger by two: dividing by four is subtracting from the exponent.
    scratch.setUint32(0, bits - 0x0100_0000);
    return scratch.getFloat32(0);
  }
  const sign = bits >>> 31 === 1 ? -1 : 1;
  return sign * (0.5 + (bits & 0x7f_ffff) / 0x100_0000) * 2 ** (exponent - 128);
}

/** Numbers of one processor read from bytes; offsets must be in range, as every caller has checked the length first. */
export interface NumberReader {
  int16(offset: number): number;
  uint16(offset: number): number;
  float32(offset: number): number;
}

/**
 * Reads 16-bit integers and 32-bit floats as `processor` stores them.
 *
 * Source: C3D User Guide, number formats (c3d.org); VAX F-floating: word-swapped, exponent bias 128 with a hidden 0.5.
 */
export function numberReader(view: DataView, processor: Processor): NumberReader {
  const little = processor !== 'mips';
  return {
    int16: (offset) => view.getInt16(offset, little),
    uint16: (offset) => view.getUint16(offset, little),
    float32:
      processor === 'dec'
        ? (offset) => vaxFloat(((view.getUint16(offset, true) << 16) | view.getUint16(offset + 2, true)) >>> 0)
        : (offset) => view.getFloat32(offset, little),
  };
}

/** A view of exactly these bytes. */
export const viewOf = (bytes: Uint8Array): DataView => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
