import { longestInfo } from './protocol.ts';
import { type ReadStream, read, refuse } from './stream-fault.ts';
import { readStreamInfo, type StreamInfo } from './stream-info.ts';

/** Who has a stream like this? */
export interface StreamQuery {
  /** A condition on the fields of the stream info, as XPath 1.0 writes it; empty: any stream. */
  readonly filter: string;
  /** UDP port at which answers are awaited. */
  readonly port: number;
  /** Comes back with each answer. */
  readonly id: string;
}

const longestQuery = 2048;
const first = 'LSL:shortinfo';
const encoder = new TextEncoder();
const decoder = new TextDecoder();

/** `LSL:shortinfo`, the filter, port and id, a line each. */
export const writeQuery = ({ filter, port, id }: StreamQuery): Uint8Array =>
  encoder.encode(`${first}\r\n${filter}\r\n${port} ${id}\r\n`);

/** True for bytes that begin as a query does. */
export const isQuery = (bytes: Uint8Array): boolean => beginsWith(bytes, first);

export function readQuery(bytes: Uint8Array): ReadStream<StreamQuery> {
  if (bytes.length > longestQuery) return refuse('stream-message-too-long', `A query of ${bytes.length} bytes.`);
  const [kind, filter = '', address = '', ...rest] = decoder.decode(bytes).split('\r\n');
  const found = /^\s*(\d{1,5}) (\S{1,64})\s*$/u.exec(address);
  const port = Number(found?.[1]);
  if (
    kind?.trim() !== first ||
    found === null ||
    !(port >= 1 && port <= 65_535) ||
    rest.some((one) => one.trim() !== '')
  )
    return refuse('stream-query-unreadable', `A query of ${bytes.length} bytes.`);
  return read({ filter: filter.trim(), port, id: found[2] as string });
}

/** The id of the query, then the stream info. */
export const writeAnswer = (id: string, xml: string): Uint8Array => encoder.encode(`${id}\r\n${xml}`);

export function readAnswer(bytes: Uint8Array): ReadStream<{ readonly id: string; readonly info: StreamInfo }> {
  if (bytes.length > longestInfo) return refuse('stream-message-too-long', `An answer of ${bytes.length} bytes.`);
  const text = decoder.decode(bytes);
  const end = text.indexOf('\r\n');
  const id = text.slice(0, Math.max(0, end)).trim();
  if (end < 0 || !/^\S{1,64}$/u.test(id))
    return refuse('stream-answer-unreadable', `An answer of ${bytes.length} bytes.`);
  const info = readStreamInfo(text.slice(end + 2));
  return info.ok ? read({ id, info: info.value }) : info;
}

export function beginsWith(bytes: Uint8Array, text: string): boolean {
  if (bytes.length < text.length) return false;
  for (let i = 0; i < text.length; i++) if (bytes[i] !== text.charCodeAt(i)) return false;
  return true;
}
