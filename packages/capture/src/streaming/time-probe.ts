import { beginsWith } from './query.ts';
import { type ReadStream, read, refuse } from './stream-fault.ts';

/** A question for the time: which burst of probes it belongs to, and when it was sent by the asker's clock, s. */
export interface TimeProbe {
  readonly wave: string;
  readonly sent: number;
}

/** The answer: what was asked, and when it came and when the answer left by the sender's clock, s. */
export interface TimeAnswer extends TimeProbe {
  readonly received: number;
  readonly answered: number;
}

const first = 'LSL:timedata';
const longest = 256;
const encoder = new TextEncoder();
const decoder = new TextDecoder();
const word = /^\S{1,32}$/u;

export const writeTimeProbe = ({ wave, sent }: TimeProbe): Uint8Array =>
  encoder.encode(`${first}\r\n${wave} ${sent}\r\n`);

export const isTimeProbe = (bytes: Uint8Array): boolean => beginsWith(bytes, first);

export function readTimeProbe(bytes: Uint8Array): ReadStream<TimeProbe> {
  const [kind, line = ''] = bytes.length > longest ? [] : decoder.decode(bytes).split('\r\n');
  const [wave = '', time = '', ...more] = line.trim().split(/\s+/u);
  const sent = time === '' ? Number.NaN : Number(time);
  if (kind?.trim() !== first || !word.test(wave) || !Number.isFinite(sent) || more.length > 0)
    return refuse('stream-probe-unreadable', `A time probe of ${bytes.length} bytes.`);
  return read({ wave, sent });
}

export const writeTimeAnswer = ({ wave, sent, received, answered }: TimeAnswer): Uint8Array =>
  encoder.encode(` ${wave} ${sent} ${received} ${answered}`);

export function readTimeAnswer(bytes: Uint8Array): ReadStream<TimeAnswer> {
  const parts = bytes.length > longest ? [] : decoder.decode(bytes).trim().split(/\s+/u);
  const [wave = '', ...times] = parts;
  const [sent = Number.NaN, received = Number.NaN, answered = Number.NaN] = times.map(Number);
  if (parts.length !== 4 || !word.test(wave) || ![sent, received, answered].every(Number.isFinite))
    return refuse('stream-probe-unreadable', `An answer to a time probe of ${bytes.length} bytes.`);
  return read({ wave, sent, received, answered });
}
