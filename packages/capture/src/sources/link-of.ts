import type { SourceDescription } from './description.ts';
import type { Link } from './link.ts';
import type { TransportPorts } from './transport-ports.ts';
import { listSerialPorts } from './transports/serial/list-ports.ts';
import { serialLink } from './transports/serial/serial-link.ts';
import { tcpLink } from './transports/tcp/tcp-link.ts';
import { udpLink } from './transports/udp/udp-link.ts';

/** A link and what has to be known of it to read its bytes. */
export interface DescribedLink {
  readonly link: Link;
  /** Seconds a piece may arrive out of order; 0 where the link keeps the order. */
  readonly reorderWindow: number;
  /** True where the first byte after opening begins a line. */
  readonly startsWhole: boolean;
  /**
   * Milliseconds for which what comes is handed on together, a little more or less so that no piece has to wait for a timer: most of
   * what a packet costs it costs however many samples it holds. Each piece is handed on by itself when absent.
   */
  readonly gather?: number;
}

/** The curve on the screens is told 50 times a second: what comes in between has to wait for that anyway. */
const gather = 20;
/** Seconds a datagram may arrive out of order. */
const datagramWindow = 0.2;

/** The link of a transport that delivers bytes; undefined for the others. */
export function linkOf(
  { transport }: Pick<SourceDescription, 'transport'>,
  ports: Pick<TransportPorts, 'listSerialPorts'> = {},
): DescribedLink | undefined {
  switch (transport.kind) {
    case 'serial':
      return {
        link: serialLink(transport, ports.listSerialPorts ?? listSerialPorts),
        reorderWindow: 0,
        startsWhole: false,
        gather,
      };
    case 'tcp':
      return { link: tcpLink(transport), reorderWindow: 0, startsWhole: true, gather };
    case 'udp':
      return { link: udpLink(transport), reorderWindow: datagramWindow, startsWhole: true, gather };
    default:
      return undefined;
  }
}
