import type { Packet } from '../packets/packet.ts';

/** A running source. It emits a header first, an end last, and never throws after it started: faults are packets. */
export interface Source {
  readonly id: string;
  start(emit: (packet: Packet) => void): Promise<void>;
  stop(): Promise<void>;
}
