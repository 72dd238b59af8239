/**
 * CRC-32C (Castagnoli): polynomial 0x1EDC6F41, reflected 0x82F63B78, initial value and final XOR all ones. It finds every
 * burst of up to 32 bits. This is the sum of iSCSI (RFC 3720), not the CRC-32 of zip and Ethernet.
 */
const table = new Uint32Array(256);
for (let byte = 0; byte < 256; byte++) {
  let value = byte;
  for (let bit = 0; bit < 8; bit++) value = value & 1 ? (value >>> 1) ^ 0x82f63b78 : value >>> 1;
  table[byte] = value;
}

/** CRC-32C of bytes [start, end), as an unsigned 32-bit number. `before` is the sum of what came before, to go on with. */
export function crc32c(bytes: Uint8Array, start = 0, end = bytes.length, before = 0): number {
  let value = ~before;
  for (let i = start; i < end; i++) value = (value >>> 8) ^ (table[(value ^ (bytes[i] as number)) & 0xff] as number);
  return ~value >>> 0;
}
