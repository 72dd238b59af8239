import { protocolVersion } from './protocol.ts';
import { type ReadStream, read, refuse } from './stream-fault.ts';

/** What a receiver asks for when it opens the connection for the samples of a stream. */
export interface FeedRequest {
  /** Version of the protocol, 110 for 1.10. */
  readonly version: number;
  readonly uid: string;
  /** Byte order of the receiver's machine. */
  readonly order: 'little' | 'big';
  /** Bytes of a value; 0 for text. */
  readonly valueBytes: number;
  /** Seconds of samples the sender may hold back for a slow receiver. */
  readonly buffer: number;
  /** Samples a piece; 0: as the sender likes. */
  readonly chunk: number;
  readonly hostname: string;
  readonly sourceId: string;
  readonly sessionId: string;
}

/** What the sender answers before the samples. */
export interface FeedAnswer {
  readonly uid: string;
  readonly order: 'little' | 'big';
  readonly version: number;
}

/** The lines before samples are no longer than this, bytes. */
export const longestHead = 8192;

const orderCode = { little: '1234', big: '4321' } as const;
const orderOf = (code: string | undefined): 'little' | 'big' | undefined =>
  code === orderCode.little ? 'little' : code === orderCode.big ? 'big' : undefined;

const encoder = new TextEncoder();
const lines = (first: string, fields: readonly (readonly [string, string | number])[]): Uint8Array =>
  encoder.encode(`${[first, ...fields.map(([key, value]) => `${key}: ${clean(String(value))}`)].join('\r\n')}\r\n\r\n`);

/** A value must not end its line. */
const clean = (value: string): string => value.replaceAll(/[\r\n]+/gu, ' ');

export const writeFeedRequest = (request: FeedRequest): Uint8Array =>
  lines(`LSL:streamfeed/${request.version} ${request.uid}`, [
    ['Native-Byte-Order', orderCode[request.order]],
    ['Has-IEEE754-Floats', 1],
    ['Supports-Subnormals', 1],
    ['Value-Size', request.valueBytes],
    ['Data-Protocol-Version', request.version],
    ['Max-Buffer-Length', request.buffer],
    ['Max-Chunk-Length', request.chunk],
    ['Hostname', request.hostname],
    ['Source-Id', request.sourceId],
    ['Session-Id', request.sessionId],
  ]);

/** How such a request begins. */
export const feedRequestBegins = 'LSL:streamfeed';

/** @param head lines up to the empty one, without it */
export function readFeedRequest(head: string): ReadStream<FeedRequest> {
  const { first, fields } = headOf(head);
  const found = /^LSL:streamfeed\/(\d{1,5})(?: (\S{0,200}))?\s*$/u.exec(first);
  if (found === null) return refuse('stream-header-unreadable', `It begins with "${first.slice(0, 40)}".`);
  const number = (key: string, usual: number): number => {
    const value = Number(fields.get(key) ?? usual);
    return Number.isFinite(value) && value >= 0 ? value : usual;
  };
  return read({
    version: Number(found[1]),
    uid: found[2] ?? '',
    order: orderOf(fields.get('native-byte-order')) ?? 'little',
    valueBytes: number('value-size', 0),
    buffer: number('max-buffer-length', 360),
    chunk: number('max-chunk-length', 0),
    hostname: fields.get('hostname') ?? '',
    sourceId: fields.get('source-id') ?? '',
    sessionId: fields.get('session-id') ?? '',
  });
}

export const writeFeedAnswer = ({ uid, order, version }: FeedAnswer): Uint8Array =>
  lines(`LSL/${version} 200 OK`, [
    ['UID', uid],
    ['Byte-Order', orderCode[order]],
    ['Suppress-Subnormals', 0],
    ['Data-Protocol-Version', version],
  ]);

/** 404: no stream of this identity is here. 505: the version is not spoken here. 400: the request is not understood. */
export const writeFeedRefusal = (status: 400 | 404 | 505): Uint8Array =>
  lines(
    `LSL/${protocolVersion} ${status} ${{ 400: 'Bad request', 404: 'Not found', 505: 'Version not supported' }[status]}`,
    [],
  );

/** @param head lines up to the empty one, without it */
export function readFeedAnswer(head: string): ReadStream<FeedAnswer> {
  const { first, fields } = headOf(head);
  const found = /^LSL\/(\d{1,5}) (\d{3})(?: .*)?$/u.exec(first);
  if (found === null) return refuse('stream-header-unreadable', `It begins with "${first.slice(0, 40)}".`);
  if (found[2] === '404') return refuse('stream-not-there', 'The sender has another stream now.');
  if (found[2] === '505')
    return refuse('stream-version-refused', `The sender does not speak version ${protocolVersion}.`);
  if (found[2] !== '200') return refuse('stream-refused', `The sender answers "${first.slice(0, 80)}".`);
  const version = Number(fields.get('data-protocol-version') ?? found[1]);
  if (version !== protocolVersion)
    return refuse('stream-version-refused', `The sender speaks version ${version}, not ${protocolVersion}.`);
  const order = orderOf(fields.get('byte-order'));
  if (order === undefined)
    return refuse('stream-header-unreadable', `Its byte order is "${(fields.get('byte-order') ?? '').slice(0, 20)}".`);
  return read({ uid: fields.get('uid') ?? '', order, version });
}

function headOf(head: string): { first: string; fields: ReadonlyMap<string, string> } {
  const [first = '', ...rest] = head.split('\r\n');
  const fields = new Map<string, string>();
  for (const line of rest) {
    const colon = line.indexOf(':');
    if (colon > 0) fields.set(line.slice(0, colon).trim().toLowerCase(), line.slice(colon + 1).trim());
  }
  return { first, fields };
}

const decoder = new TextDecoder();

/** Gathers bytes until the empty line comes; at most 8192 of them. */
export class HeadGatherer {
  #bytes = new Uint8Array(0);

  /** The head without its empty line and what follows it; undefined while it is not whole; a fault when it is too long. */
  feed(bytes: Uint8Array): ReadStream<{ readonly head: string; readonly rest: Uint8Array }> | undefined {
    const before = this.#bytes.length;
    const all = new Uint8Array(before + bytes.length);
    all.set(this.#bytes);
    all.set(bytes, before);
    for (let i = Math.max(0, before - 3); i + 4 <= Math.min(all.length, longestHead); i++) {
      if (all[i] === 13 && all[i + 1] === 10 && all[i + 2] === 13 && all[i + 3] === 10)
        return read({ head: decoder.decode(all.subarray(0, i)), rest: all.subarray(i + 4) });
    }
    if (all.length >= longestHead) return refuse('stream-message-too-long', `No empty line in ${longestHead} bytes.`);
    this.#bytes = all;
    return undefined;
  }
}
