import type { StreamInfo } from '../../../streaming/stream-info.ts';
import type { SourceDescription, StreamTransport } from '../../description.ts';
import type { LinkTroubleCode } from '../../link-trouble.ts';
import type { FoundStream } from './find-streams.ts';

/** What tells a sender from another, also after it began anew. */
export const identityOf = ({ sourceId, hostname, name, type }: StreamInfo): string =>
  sourceId === '' ? `${hostname} ${name} ${type}` : sourceId;

export type Chosen =
  | { readonly stream: FoundStream }
  | { readonly words: string; readonly trouble: LinkTroubleCode }
  | { readonly wrongDevice: string };

/**
 * The stream a description means, among those that answered.
 *
 * @param known identity of the sender this source has read before: no other is taken
 */
export function chooseStream(found: readonly FoundStream[], transport: StreamTransport, known?: string): Chosen {
  const { name, type, sourceId } = transport;
  const fitting = found.filter(
    ({ info }) =>
      (name === undefined || info.name === name) &&
      (type === undefined || info.type === type) &&
      (sourceId === undefined || info.sourceId === sourceId),
  );
  const own = known === undefined ? fitting : fitting.filter(({ info }) => identityOf(info) === known);
  const [other] = fitting;
  if (own.length === 0 && other !== undefined && known !== undefined)
    return { wrongDevice: `The sender ${identityOf(other.info)} answers, not ${known}.` };
  const [first] = own;
  if (first === undefined)
    return { words: 'No stream answers that fits the description.', trouble: 'source-stream-missing' };
  const senders = new Set(own.map(({ info }) => identityOf(info)));
  if (senders.size > 1)
    return {
      words: `${senders.size} streams fit the description: ${[...senders].slice(0, 4).join(', ')}.`,
      trouble: 'source-stream-several',
    };
  // A sender that began anew may leave its old stream behind for a while.
  return { stream: own.reduce((newest, one) => (one.info.createdAt > newest.info.createdAt ? one : newest), first) };
}

/** What keeps a stream from being read by a description, in words; undefined: nothing. */
export function differs(
  info: StreamInfo,
  { channels, rate, transport }: Pick<SourceDescription, 'channels' | 'rate'> & { readonly transport: StreamTransport },
): string | undefined {
  if (info.format === 'string') return 'The stream holds texts, not numbers.';
  if (info.rate === 0) return 'The stream promises no rate: its samples come when they come.';
  if (Math.abs(info.rate - rate) > 0.005 * rate)
    return `The stream promises ${info.rate} Hz, the description ${rate} Hz.`;
  if (channels.length > 0 && channels.length !== info.channelCount)
    return `The stream has ${info.channelCount} channels, the description ${channels.length}.`;
  const { labels } = transport;
  if (labels === undefined) return undefined;
  const now = info.channels.map(({ label }) => label);
  const at = labels.findIndex((label, i) => now[i] !== label);
  if (now.length === labels.length && at < 0) return undefined;
  return now.length === 0
    ? 'The stream does not name its channels any more.'
    : `Channel ${at + 1} of the stream is called "${now[at] ?? ''}", not "${labels[at] ?? ''}".`;
}
