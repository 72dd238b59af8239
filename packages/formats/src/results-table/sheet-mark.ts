const old = [0xd0, 0xcf, 0x11, 0xe0];
const zip = [0x50, 0x4b, 0x03, 0x04];
const startsWith = (bytes: Uint8Array, mark: readonly number[]) => mark.every((byte, i) => bytes[i] === byte);

/** Whether bytes begin like a spreadsheet of the old binary kind. */
export const isOldSheet = (bytes: Uint8Array): boolean => startsWith(bytes, old);

/** Whether bytes begin like a spreadsheet, of the present kind or the old one. */
export const looksLikeSheet = (bytes: Uint8Array): boolean => startsWith(bytes, zip) || isOldSheet(bytes);
