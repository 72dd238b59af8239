import { frameLength } from '../codec/frames/frame-length.ts';
import type {
  ChannelDescription,
  FieldRole,
  FrameLayout,
  LineLayout,
  SourceDescription,
  StreamTransport,
} from '../description.ts';
import type { SourceProblem } from './problem.ts';
import { checkCalibrations, readCalibrations } from './read-calibration.ts';
import { readChannel } from './read-channel.ts';
import { longestFrame, readLayout } from './read-layout.ts';
import { checkSurfaces } from './read-surface.ts';
import { readTransport } from './read-transport.ts';
import { Reader } from './reader.ts';

export type ParsedDescription =
  | { readonly ok: true; readonly description: SourceDescription }
  | { readonly ok: false; readonly problems: readonly SourceProblem[] };

/**
 * The one door for source descriptions: unknown JSON becomes a description, or a list of everything that is wrong with it.
 *
 * Checked beyond types: bytes need a layout and files must not have one; each channel is described once and filled once; at
 * most one counter and one time; a frame of at most 16384 bytes; a delimiter that is no part of a number; calibrations whose matrix
 * fits their signals and the channels they make; a surface with the vertical channel of a plate of six axes. Streams, folder, replay and virtual sources may leave the channels empty: the stream, the
 * file or the script names them.
 */
export function parseSourceDescription(value: unknown): ParsedDescription {
  const read = new Reader();
  const f = read.object(value, '', [
    ...['$schema', 'schema', 'name', 'transport', 'layout', 'channels', 'calibration', 'rate', 'notes'],
  ]);
  if (f === undefined) return { ok: false, problems: read.problems };
  if (f.schema !== 'sthene.source/1') {
    read.problem('source-schema-unknown', '/schema', 'This is no source description of a version known here.', {
      expected: 'sthene.source/1',
      found: f.schema ?? 'nothing',
    });
  }
  const name = read.text(f, 'name', '');
  const transport = readTransport(read, f.transport);
  const bytes = transport === undefined || ['serial', 'tcp', 'udp'].includes(transport.kind);
  if (transport !== undefined && bytes && f.layout === undefined) {
    read.problem(
      'source-layout-missing',
      '/layout',
      'Bytes arrive over this transport; a layout has to say how to read them.',
    );
  }
  if (!bytes && f.layout !== undefined) {
    read.problem('source-layout-unused', '/layout', 'This transport delivers no bytes; leave the layout out.');
  }
  const layout = bytes && f.layout !== undefined ? readLayout(read, f.layout) : undefined;
  const channels = read
    .list(f, 'channels', '', [bytes ? 1 : 0, 256])
    .map((one, i) => readChannel(read, one, `/channels/${i}`));
  const calibration = f.calibration === undefined ? undefined : readCalibrations(read, f);
  const rate = read.number(f, 'rate', '', 1, 1_000_000);
  const notes = f.notes === undefined ? {} : { notes: read.text(f, 'notes', '', [0, 10_000]) };
  checkNames(read, channels, layout);
  if (transport?.kind === 'stream') checkLabels(read, transport, channels);
  if (calibration !== undefined && transport?.kind === 'virtual') {
    read.problem(
      'source-calibration-unused',
      '/calibration',
      'Virtual plates send forces; there is nothing to calibrate.',
    );
  } else checkCalibrations(read, calibration ?? [], channels);
  checkSurfaces(read, channels, calibration);
  if (transport === undefined || read.problems.length > 0) return { ok: false, problems: read.problems };
  const description: SourceDescription = {
    schema: 'sthene.source/1',
    name,
    transport,
    ...(layout === undefined ? {} : { layout }),
    channels,
    ...(calibration === undefined ? {} : { calibration }),
    rate,
    ...notes,
  };
  return { ok: true, description };
}

/** A stream's channels are filled in the order of its labels, so there have to be as many. */
function checkLabels(read: Reader, { labels }: StreamTransport, channels: readonly ChannelDescription[]): void {
  if (labels === undefined || channels.length === 0 || labels.length === channels.length) return;
  read.problem('source-stream-labels', '/transport/labels', 'There has to be one label for each channel.', {
    expected: `${channels.length} labels`,
    found: `${labels.length} labels`,
  });
}

/** Names that must fit together: channels among each other and with the fields of the layout. */
function checkNames(
  read: Reader,
  channels: readonly ChannelDescription[],
  layout: LineLayout | FrameLayout | undefined,
): void {
  const names = new Set<string>();
  channels.forEach(({ name }, i) => {
    if (names.has(name)) {
      read.problem('source-channel-repeated', `/channels/${i}/name`, 'Another channel has this name.', { found: name });
    }
    names.add(name);
  });
  if (layout === undefined) return;
  const fields: { at: string; role: FieldRole }[] =
    layout.kind === 'lines'
      ? layout.fields.map((role, i) => ({ at: `/layout/fields/${i}`, role }))
      : [
          ...layout.head.map((role, i) => ({ at: `/layout/head/${i}`, role })),
          ...layout.sample.map((role, i) => ({ at: `/layout/sample/${i}`, role })),
        ];
  const filled = new Set<string>();
  const seen = new Set<string>();
  for (const { at, role } of fields) {
    if (role.role === 'channel') {
      if (!names.has(role.channel)) {
        read.problem('source-channel-unknown', `${at}/channel`, 'No channel of this name is described.', {
          found: role.channel,
        });
      }
      if (filled.has(role.channel)) {
        read.problem('source-channel-repeated', `${at}/channel`, 'Another field fills this channel.', {
          found: role.channel,
        });
      }
      filled.add(role.channel);
    } else if (role.role !== 'ignore') {
      if (seen.has(role.role)) read.problem('source-counter-repeated', at, `Another field is the ${role.role}.`);
      seen.add(role.role);
    }
  }
  channels.forEach(({ name }, i) => {
    if (filled.has(name)) return;
    read.problem('source-channel-unread', `/channels/${i}`, 'No field of the layout fills this channel.', {
      found: name,
    });
  });
  if (layout.kind === 'frames' && frameLength(layout) > longestFrame) {
    read.problem('source-frame-too-long', '/layout', `A frame may have at most ${longestFrame} bytes.`, {
      found: `${frameLength(layout)} bytes`,
    });
  }
}
