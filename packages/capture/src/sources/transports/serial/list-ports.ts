import { SerialPort } from 'serialport';
import type { SerialPortFacts } from '../../transport-ports.ts';

/** Serial ports of this machine; empty where the system cannot tell (on Linux the list needs `udevadm`). */
export async function listSerialPorts(): Promise<readonly SerialPortFacts[]> {
  try {
    return (await SerialPort.list()).map(({ path, serialNumber, manufacturer }) => ({
      path,
      serialNumber,
      manufacturer,
    }));
  } catch {
    return [];
  }
}
