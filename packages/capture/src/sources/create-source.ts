import { byteSource } from './byte-source.ts';
import type { SourceDescription, Transport } from './description.ts';
import { linkOf } from './link-of.ts';
import type { Source } from './source.ts';
import type { TransportPorts } from './transport-ports.ts';
import { folderSource } from './transports/folder/folder-source.ts';
import { replaySource } from './transports/replay/replay-source.ts';
import { streamSource } from './transports/streaming/stream-source.ts';
import { type VirtualScript, virtualScripts } from './virtual/script.ts';
import { type Schedule, virtualPlates, virtualRate } from './virtual/virtual-plates.ts';

/** What a source needs of the outside. */
export interface CreateSourcePorts extends TransportPorts {
  /** Paces virtual sources; absent: they are run by hand. */
  readonly schedule?: Schedule;
  /** Scripts of virtual sources by name, beside those that come with the station. */
  readonly scripts?: Readonly<Record<string, VirtualScript>>;
}

/** Permanent codes of what keeps a source from being made. */
export type CreateSourceCode = 'layout-missing' | 'unknown-script' | 'rate-not-offered';

/** A description that names what cannot be made. */
export class CreateSourceError extends Error {
  readonly code: CreateSourceCode;

  constructor(code: CreateSourceCode, words: string) {
    super(words);
    this.name = 'CreateSourceError';
    this.code = code;
  }
}

/**
 * Makes the source a description names; it does not start it.
 *
 * Throws a `CreateSourceError`: `layout-missing` for bytes that no layout reads, `unknown-script` and
 * `rate-not-offered` for virtual plates. Virtual plates send left and right at 1000 Hz whatever channels the description
 * lists; `virtualDescription` writes one that fits.
 */
export function createSource(description: SourceDescription, ports: CreateSourcePorts): Source {
  const { transport } = description;
  switch (transport.kind) {
    case 'virtual':
      return virtual(description.rate, transport, ports);
    case 'serial':
    case 'tcp':
    case 'udp':
      return bytes(description, ports);
    case 'stream':
      return streamSource(description, ports);
    case 'folder':
      return folderSource(description, ports);
    case 'replay':
      return replaySource(description, ports);
  }
}

function bytes(description: SourceDescription, ports: CreateSourcePorts): Source {
  const link = linkOf(description, ports);
  if (description.layout === undefined || link === undefined) {
    throw new CreateSourceError(
      'layout-missing',
      `"${description.name}" says nothing of how its bytes are to be read.`,
    );
  }
  return byteSource(description, ports, link);
}

function virtual(rate: number, transport: Extract<Transport, { kind: 'virtual' }>, ports: CreateSourcePorts): Source {
  const scripts = { ...virtualScripts, ...ports.scripts };
  const script = Object.hasOwn(scripts, transport.script) ? scripts[transport.script] : undefined;
  if (script === undefined) {
    throw new CreateSourceError('unknown-script', `There is no script "${transport.script}" for virtual plates.`);
  }
  if (rate !== virtualRate) {
    throw new CreateSourceError('rate-not-offered', `Virtual plates run at ${virtualRate} Hz, not at ${rate} Hz.`);
  }
  const { id, clock, schedule } = ports;
  return virtualPlates({
    id,
    script,
    seed: transport.seed,
    clock,
    ...(transport.speed === undefined ? {} : { speed: transport.speed }),
    ...(schedule === undefined ? {} : { schedule }),
  });
}
