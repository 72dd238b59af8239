import { SerialPort } from 'serialport';
import type { Transport } from '../../description.ts';
import { type Link, type LinkEvents, retryMilliseconds } from '../../link.ts';
import { type LinkTroubleCode, troubleOf } from '../../link-trouble.ts';
import type { SerialPortFacts } from '../../transport-ports.ts';
import { startBytesOf } from '../start-bytes.ts';

type SerialTransport = Extract<Transport, { kind: 'serial' }>;

/**
 * A serial port. With a serial number in the description the device is found wherever it is plugged in, and another device on
 * the described path is refused; without one the path is all there is to know it by.
 */
export function serialLink(transport: SerialTransport, list: () => Promise<readonly SerialPortFacts[]>): Link {
  let stopped = false;
  let port: SerialPort | undefined;
  let timer: ReturnType<typeof setTimeout> | undefined;

  const choosePath = async (events: LinkEvents): Promise<string | undefined> => {
    const wanted = transport.serialNumber;
    if (wanted === undefined) return transport.path;
    const known = await list();
    const found = known.find(({ serialNumber }) => serialNumber === wanted);
    if (found !== undefined) return found.path;
    const other = known.find(({ path, serialNumber }) => path === transport.path && serialNumber !== undefined);
    if (other === undefined) return transport.path;
    events.wrongDevice(`On ${transport.path} answers the device ${other.serialNumber}, not ${wanted}.`);
    return undefined;
  };

  const attempt = async (events: LinkEvents): Promise<void> => {
    const again = (reason?: string, trouble?: LinkTroubleCode) => {
      if (stopped) return;
      if (reason !== undefined) events.closed(reason, trouble);
      timer = setTimeout(() => void attempt(events), retryMilliseconds);
    };
    const path = await choosePath(events);
    if (stopped) return;
    if (path === undefined) return again();
    await new Promise<void>((done) => {
      let over = false;
      const fail = (reason: string, trouble: LinkTroubleCode) => {
        if (!over) again(reason, trouble);
        over = true;
        done();
      };
      const { baudRate, dataBits = 8, parity = 'none', stopBits = 1 } = transport;
      const opening = new SerialPort({ path, baudRate, dataBits, parity, stopBits, autoOpen: false });
      port = opening;
      opening.on('data', (bytes: Uint8Array) => {
        if (!over) events.bytes(bytes);
      });
      opening.on('error', (error) => {
        fail(`The serial port ${path} failed: ${error.message}.`, troubleOf(error));
        if (opening.isOpen) opening.close(() => {});
      });
      opening.on('close', () => fail(`The serial port ${path} was closed or unplugged.`, 'source-link-failed'));
      opening.open((error) => {
        if (error) return fail(`The serial port ${path} could not be opened: ${error.message}.`, troubleOf(error));
        const start = startBytesOf(transport.startBytes);
        if (start !== undefined) opening.write(Buffer.from(start));
        events.opened(transport.serialNumber);
        done();
      });
    });
  };

  return {
    start: (events) => attempt(events),
    async stop() {
      stopped = true;
      clearTimeout(timer);
      const open = port;
      if (open?.isOpen) await new Promise<void>((done) => open.close(() => done()));
    },
  };
}
