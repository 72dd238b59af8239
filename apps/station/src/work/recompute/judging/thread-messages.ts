import type { Made } from './order.ts';

/** What a judging thread is started with; what it is sent after that are orders. */
export interface ThreadData {
  /** Folder of the lab, where its files lie. */
  readonly folder: string;
  /** One whole number both sides see: `open`, or `held` while nothing may be judged. */
  readonly gate: SharedArrayBuffer;
}

/** Values of the gate. */
export const gate = { open: 0, held: 1 } as const;

/** From a thread: that it is there; then for each order, in their order, what it made or a fault that is not a trial's. */
export type ThreadMessage =
  | { readonly ready: true }
  | { readonly made: readonly Made[] }
  | { readonly fault: { readonly words: string } };
