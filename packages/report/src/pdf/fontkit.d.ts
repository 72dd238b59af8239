declare module 'fontkit' {
  /** A parsed font, as the PDF library takes it. */
  export function create(bytes: Uint8Array): object;
}
