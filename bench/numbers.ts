/** Numbers as the table shows them: three digits that count. */
const digits = (value: number): string =>
  value >= 100 ? value.toFixed(0) : value >= 10 ? value.toFixed(1) : value.toFixed(2);

/** ms, or s from one second. */
export const time = (ms: number): string => (ms >= 1000 ? `${digits(ms / 1000)} s` : `${digits(ms)} ms`);

/** Millions of bytes per second. */
export const speed = (bytes: number, ms: number): string => `${digits(bytes / 1000 / ms)} MB/s`;

/** Millions of bytes. */
export const megabytes = (bytes: number): string => `${digits(bytes / 1e6)} MB`;

/** Thousands of bytes. */
export const kilobytes = (bytes: number): string => `${digits(bytes / 1000)} kB`;

export const times = (ratio: number): string => `${digits(ratio)} times`;
