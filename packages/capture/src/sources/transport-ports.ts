import type { CaptureClock } from '../clock/clock.ts';
import type { Packet } from '../packets/packet.ts';
import type { StreamNetwork } from './transports/streaming/network.ts';

/** What transports need of their surroundings; apps supply them, tests supply bad ones. */
export interface TransportPorts {
  /** Id of the source, as its header carries it. */
  readonly id: string;
  readonly clock: CaptureClock;
  /** By which clock a device's rate is measured: `receive` when absent; `device` where it plays faster than time. */
  readonly rateBy?: 'receive' | 'device';
  /** Packets of a journalled day, oldest first. Absent: the journal's own files are read. */
  readonly openDay?: (folder: string) => AsyncIterable<Packet> | Iterable<Packet>;
  /** Where streams are sought. Absent: as the protocol has it. */
  readonly streamNetwork?: StreamNetwork;
  /** Serial ports as the system lists them. Absent: the real list. */
  readonly listSerialPorts?: () => Promise<readonly SerialPortFacts[]>;
}

export interface SerialPortFacts {
  readonly path: string;
  readonly serialNumber?: string | undefined;
  readonly manufacturer?: string | undefined;
}
