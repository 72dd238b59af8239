import { listSerialPorts, type SourceDescription, type Transport } from '@sthene/capture';
import type { SourceListening } from '@sthene/contract';
import { ProblemError } from '../../server/problem-error.ts';
import type { LiveLab } from '../live-lab.ts';
import { checkSource } from './check-source.ts';
import { Listenings, type Readable, readable } from './listening.ts';

/** Serial ports of this machine. */
export async function serialPorts(): Promise<{ path: string; serialNumber?: string; maker?: string }[]> {
  return (await listSerialPorts()).map(({ path, serialNumber, manufacturer }) => ({
    path,
    ...(serialNumber === undefined ? {} : { serialNumber }),
    ...(manufacturer === undefined ? {} : { maker: manufacturer }),
  }));
}

/** Devices belong to the machine, not to a lab: who listens is known once for the whole station. */
const listenings = new Listenings();

/** Listens to a source for a moment; nothing of it is stored, and the rig it may belong to must be closed. */
export const probeSource = async (live: LiveLab, value: unknown, seconds: number): Promise<SourceListening> =>
  listenings.once(value, usable(live, value), seconds);

/** Goes on listening under an id while the description changes; begins with the first call. */
export const listenSource = async (live: LiveLab, id: string, value: unknown): Promise<SourceListening> =>
  listenings.listen(`${live.lab.id} ${id}`, value, usable(live, value));

export const stopListening = async (live: LiveLab, id: string): Promise<{ stopped: boolean }> => ({
  stopped: await listenings.stop(`${live.lab.id} ${id}`),
});

/** The part of a description that can be listened to; refused where there is none, or where an open rig holds its device. */
function usable(live: LiveLab, value: unknown): Readable {
  const found = readable(value);
  if (found === undefined) {
    const { faults } = checkSource(value);
    throw new ProblemError(
      400,
      faults[0]?.code ?? 'request-invalid',
      faults.map(({ path, words }) => `${path || 'file'}: ${words}`).join(' '),
      'Say how it comes in, then listen again.',
    );
  }
  const device = deviceOf(found.transport);
  for (const { record, sources } of live.rigs.values()) {
    const holds = sources.some(({ description }) => deviceOf((description as SourceDescription).transport) === device);
    if (device !== undefined && holds)
      throw new ProblemError(
        409,
        'source-in-use',
        `The open rig "${record.name}" holds this device.`,
        'Close that rig, then listen again.',
      );
  }
  const { streamNetwork } = live.ports;
  return streamNetwork === undefined ? found : { ...found, streamNetwork };
}

/** What only one can hold at a time. */
function deviceOf(transport: Transport): string | undefined {
  switch (transport.kind) {
    case 'serial':
      return `serial ${transport.path}`;
    case 'tcp':
      return `tcp ${transport.mode} ${transport.mode === 'listen' ? '' : transport.host} ${transport.port}`;
    case 'udp':
      return `udp ${transport.port}`;
    default:
      return undefined;
  }
}
