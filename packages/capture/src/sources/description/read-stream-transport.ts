import type { StreamTransport } from '../description.ts';
import type { Reader } from './reader.ts';

const names = ['name', 'type', 'sourceId', 'host'] as const;

/** Reads how a stream is known: by one of its names at least, and a port only of a machine that is named. */
export function readStreamTransport(read: Reader, f: Readonly<Record<string, unknown>>): StreamTransport {
  const at = '/transport';
  const given: { -readonly [K in keyof StreamTransport]: StreamTransport[K] } = { kind: 'stream' };
  for (const one of names)
    if (f[one] !== undefined) given[one] = read.text(f, one, at, [1, one === 'host' ? 253 : 500]);
  if (names.every((one) => f[one] === undefined)) {
    read.problem(
      'source-stream-unnamed',
      at,
      'Name the stream by its name, type or source id, or by the machine it comes from.',
      {
        expected: names.join(', '),
      },
    );
  }
  if (f.port !== undefined) {
    given.port = read.number(f, 'port', at, 1, 65_535, true);
    if (f.host === undefined)
      read.problem('source-field-missing', `${at}/host`, 'A port is one of a machine: name it.');
  }
  if (f.labels !== undefined) given.labels = read.texts(f, 'labels', at, [1, 256]);
  return given;
}
