import { mostChannels, protocolVersion, type StreamFormat, streamFormats } from './protocol.ts';
import { type ReadStream, read, refuse } from './stream-fault.ts';
import { childOf, readXml, writeXml, type XmlElement, type XmlToWrite } from './xml.ts';

/** What a sender says of one channel. */
export interface StreamInfoChannel {
  readonly label: string;
  readonly unit: string;
  readonly type: string;
}

/** What a sender says of its stream. */
export interface StreamInfo {
  readonly name: string;
  readonly type: string;
  readonly channelCount: number;
  readonly format: StreamFormat;
  /** Samples a second; 0: they come when they come. */
  readonly rate: number;
  /** The same after the sender began anew; empty where the sender has none. */
  readonly sourceId: string;
  /** Another one each time the stream begins. */
  readonly uid: string;
  readonly sessionId: string;
  readonly hostname: string;
  /** Version of the protocol, 110 for 1.10. */
  readonly version: number;
  /** By the sender's clock, s. */
  readonly createdAt: number;
  readonly address: string;
  readonly dataPort: number;
  readonly servicePort: number;
  /** One for each channel where the sender names them; empty where it does not. */
  readonly channels: readonly StreamInfoChannel[];
}

const longestField = 500;

/**
 * Reads a stream info, short or full. Only IPv4 addresses are read. Channels are those of `desc/channels`; where there are not as many
 * as the stream has channels, none are taken: half a map is worse than none.
 */
export function readStreamInfo(xml: string): ReadStream<StreamInfo> {
  const parsed = readXml(xml);
  return parsed.ok ? streamInfoOf(parsed.value) : parsed;
}

export function streamInfoOf(root: XmlElement): ReadStream<StreamInfo> {
  const wrong = (field: string, found: string) =>
    refuse('stream-info-wrong', `The field "${field}" cannot be "${found.slice(0, 40)}".`);
  if (root.name !== 'info') return wrong('info', root.name);
  const text = (field: string): string => (childOf(root, field)?.text ?? '').trim().slice(0, longestField);
  const number = (field: string): number => (text(field) === '' ? Number.NaN : Number(text(field)));
  const channelCount = number('channel_count');
  if (!(Number.isInteger(channelCount) && channelCount >= 1 && channelCount <= mostChannels))
    return wrong('channel_count', text('channel_count'));
  const format = streamFormats.find((one) => one === text('channel_format'));
  if (format === undefined) return wrong('channel_format', text('channel_format'));
  const rate = number('nominal_srate');
  if (!(rate >= 0 && rate <= 1_000_000)) return wrong('nominal_srate', text('nominal_srate'));
  if (text('uid') === '') return wrong('uid', '');
  const ports = [number('v4data_port'), number('v4service_port')] as const;
  const bad = ports.findIndex((port) => !(Number.isInteger(port) && port >= 1 && port <= 65_535));
  if (bad >= 0) return wrong(bad === 0 ? 'v4data_port' : 'v4service_port', String(ports[bad]));
  const version = Math.round(100 * number('version'));
  const createdAt = number('created_at');
  return read({
    name: text('name'),
    type: text('type'),
    channelCount,
    format,
    rate,
    sourceId: text('source_id'),
    uid: text('uid'),
    sessionId: text('session_id'),
    hostname: text('hostname'),
    version: Number.isFinite(version) ? version : protocolVersion,
    createdAt: Number.isFinite(createdAt) ? createdAt : 0,
    address: text('v4address'),
    dataPort: ports[0],
    servicePort: ports[1],
    channels: channelsOf(root, channelCount),
  });
}

function channelsOf(root: XmlElement, count: number): StreamInfoChannel[] {
  const list = childOf(childOf(root, 'desc'), 'channels')?.children.filter((one) => one.name === 'channel') ?? [];
  if (list.length !== count) return [];
  const text = (channel: XmlElement, field: string) => (childOf(channel, field)?.text ?? '').trim().slice(0, 200);
  return list.map((one) => ({ label: text(one, 'label'), unit: text(one, 'unit'), type: text(one, 'type') }));
}

/** Writes a stream info: the full one with its channels, the short one without. */
export function writeStreamInfo(info: StreamInfo, size: 'full' | 'short'): string {
  return writeXml(['info', fieldsOf(info, size)]);
}

function fieldsOf(info: StreamInfo, size: 'full' | 'short'): XmlToWrite[] {
  const channels = info.channels.map(
    ({ label, unit, type }): XmlToWrite => [
      'channel',
      [
        ['label', label],
        ['unit', unit],
        ['type', type],
      ],
    ],
  );
  return [
    ['name', info.name],
    ['type', info.type],
    ['channel_count', String(info.channelCount)],
    ['channel_format', info.format],
    ['source_id', info.sourceId],
    ['nominal_srate', String(info.rate)],
    ['version', (info.version / 100).toFixed(2)],
    ['created_at', String(info.createdAt)],
    ['uid', info.uid],
    ['session_id', info.sessionId],
    ['hostname', info.hostname],
    ['v4address', info.address],
    ['v4data_port', String(info.dataPort)],
    ['v4service_port', String(info.servicePort)],
    ['v6address', ''],
    ['v6data_port', '0'],
    ['v6service_port', '0'],
    ['desc', size === 'short' || channels.length === 0 ? '' : [['channels', channels]]],
  ];
}
