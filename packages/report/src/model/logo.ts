/** A picture that was looked at by `readLogo`. */
export interface Logo {
  readonly mediaType: 'image/png' | 'image/jpeg';
  readonly bytes: Uint8Array;
  /** Pixels. */
  readonly width: number;
  readonly height: number;
}
