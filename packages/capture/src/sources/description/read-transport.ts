import type { Transport } from '../description.ts';
import { readStreamTransport } from './read-stream-transport.ts';
import type { Reader } from './reader.ts';

const kinds = ['serial', 'tcp', 'udp', 'stream', 'folder', 'replay', 'virtual'] as const;
const fieldsOf: Readonly<Record<Transport['kind'], readonly string[]>> = {
  serial: ['kind', 'path', 'baudRate', 'dataBits', 'parity', 'stopBits', 'serialNumber', 'startBytes'],
  tcp: ['kind', 'mode', 'host', 'port', 'startBytes'],
  udp: ['kind', 'host', 'port'],
  stream: ['kind', 'name', 'type', 'sourceId', 'host', 'port', 'labels'],
  folder: ['kind', 'path', 'pattern'],
  replay: ['kind', 'file', 'speed', 'repeat'],
  virtual: ['kind', 'script', 'seed', 'speed'],
};

/** Reads the transport of a description. */
export function readTransport(read: Reader, value: unknown): Transport | undefined {
  const at = '/transport';
  const all = [...new Set(Object.values(fieldsOf).flat())];
  const guess = (value as { kind?: unknown } | null)?.kind;
  const known = fieldsOf[guess as Transport['kind']] ?? all;
  const f = read.object(value, at, Object.hasOwn(fieldsOf, String(guess)) ? known : all);
  if (f === undefined) return undefined;
  const kind = read.choice(f, 'kind', at, kinds);
  if (kind !== f.kind) return undefined;
  const has = (key: string) => f[key] !== undefined;
  const start = has('startBytes') ? { startBytes: read.hex(f, 'startBytes', at, [1, 256]) } : {};
  const host = () => read.text(f, 'host', at, [1, 253]);
  const port = (low: number) => read.number(f, 'port', at, low, 65535, true);
  switch (kind) {
    case 'serial':
      return {
        kind,
        path: read.text(f, 'path', at),
        baudRate: read.number(f, 'baudRate', at, 50, 20_000_000, true),
        ...(has('dataBits') ? { dataBits: read.choice(f, 'dataBits', at, [7, 8] as const) } : {}),
        ...(has('parity') ? { parity: read.choice(f, 'parity', at, ['none', 'even', 'odd'] as const) } : {}),
        ...(has('stopBits') ? { stopBits: read.choice(f, 'stopBits', at, [1, 2] as const) } : {}),
        ...(has('serialNumber') ? { serialNumber: read.text(f, 'serialNumber', at) } : {}),
        ...start,
      };
    case 'tcp': {
      const mode = read.choice(f, 'mode', at, ['connect', 'listen'] as const);
      return { kind, mode, host: host(), port: port(mode === 'listen' ? 0 : 1), ...start };
    }
    case 'udp':
      return { kind, host: host(), port: port(0) };
    case 'stream':
      return readStreamTransport(read, f);
    case 'folder':
      return {
        kind,
        path: read.text(f, 'path', at, [1, 4096]),
        ...(has('pattern') ? { pattern: read.text(f, 'pattern', at) } : {}),
      };
    case 'replay':
      return {
        kind,
        file: read.text(f, 'file', at, [1, 4096]),
        speed: read.number(f, 'speed', at, 0, 10_000),
        ...(has('repeat') ? { repeat: read.flag(f, 'repeat', at) } : {}),
      };
    case 'virtual':
      return {
        kind,
        script: read.text(f, 'script', at),
        seed: read.number(f, 'seed', at, 0, 4_294_967_295, true),
        ...(has('speed') ? { speed: read.number(f, 'speed', at, 0, 10_000) } : {}),
      };
  }
}
