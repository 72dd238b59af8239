import { createHash } from 'node:crypto';

/** SHA-256 in lower-case hexadecimal. Text is hashed as UTF-8. */
export function sha256Hex(data: string | Uint8Array): string {
  return createHash('sha256').update(data).digest('hex');
}

/** A SHA-256 fed piece by piece, for streams. */
export interface RunningHash {
  update(piece: string | Uint8Array): void;
  hex(): string;
}

export function runningSha256(): RunningHash {
  const hash = createHash('sha256');
  return {
    update: (piece) => {
      hash.update(piece);
    },
    hex: () => hash.digest('hex'),
  };
}

const pattern = /^[0-9a-f]{64}$/;

/** True for a SHA-256 in lower-case hexadecimal and nothing else. */
export function isSha256(text: string): boolean {
  return pattern.test(text);
}
