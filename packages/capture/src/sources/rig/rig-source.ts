import { type Alignment, GridAligner } from '../../clock/align.ts';
import type { CaptureClock } from '../../clock/clock.ts';
import { secondsBetween } from '../../clock/time.ts';
import type { GapPacket, HeaderPacket, Packet, StatusPacket, StreamChannel } from '../../packets/packet.ts';
import type { Source } from '../source.ts';

/** Several sources as one: what the analysis and the journal see of a rig with a line for each plate. */
export interface RigSource extends Source {
  readonly parts: readonly Source[];
  /** The fitted line of time of each part, with its residual. */
  alignments(): readonly (Alignment & { readonly source: string })[];
  /** What each part said last of itself, in their order. */
  states(): readonly { readonly source: string; readonly state: StatusPacket['state']; readonly words: string }[];
}

export const isRigSource = (source: Source): source is RigSource => 'parts' in source && 'alignments' in source;

/**
 * Joins running sources on the grid of the fastest. Channels keep their names; one that is taken gets its source's name in front.
 * A sample that any part misses is a gap of the rig. Faults and states of the parts are handed on with their names. The first
 * second or two, until every clock is known, is held back and then handed on from the first sample all parts have.
 */
export function rigSource(
  id: string,
  parts: readonly Source[],
  clock: CaptureClock,
  names: readonly string[] = parts.map((part) => part.id),
): RigSource {
  if (parts.length === 0) throw new RangeError('A rig needs a source.');
  let aligner: GridAligner | undefined;
  const headers: (HeaderPacket | undefined)[] = parts.map(() => undefined);
  const early: { part: number; packet: Packet }[] = [];
  const counts = { samples: 0, gaps: 0, missing: 0 };
  const told = parts.map(({ id: source }) => ({
    source,
    state: 'connecting' as StatusPacket['state'],
    words: 'It is being opened.',
  }));
  let open: { first: number; count: number } | undefined;
  let cause: GapPacket['cause'] = 'lost';
  let at = clock.monotonic();
  let out: ((packet: Packet) => void) | undefined;
  const began = clock.monotonic();

  const closeGap = (): void => {
    if (open === undefined) return;
    counts.gaps++;
    counts.missing += open.count;
    out?.({ kind: 'gap', ...open, cause, at });
    open = undefined;
  };

  const begin = (): void => {
    const known = headers as HeaderPacket[];
    const taken = new Set<string>();
    const channels = known.flatMap((header, part) => {
      const own = new Map<string, string>();
      for (const { name } of header.channels) {
        const free = taken.has(name) ? `${names[part]} ${name}` : name;
        taken.add(free);
        own.set(name, free);
      }
      return header.channels.map((channel) => renamed(channel, own));
    });
    const devices = known.flatMap(({ device }) => device ?? []);
    out?.({
      kind: 'header',
      source: id,
      ...(devices.length === 0 ? {} : { device: devices.join(' + ') }),
      promisedRate: Math.max(...known.map(({ promisedRate }) => promisedRate)),
      channels,
      at: clock.monotonic(),
      wallClock: clock.wall(),
    });
    const streams = known.map(({ channels: own, promisedRate }) => ({ channels: own.length, promisedRate }));
    aligner = new GridAligner(streams, {
      samples(first, count, values) {
        closeGap();
        counts.samples += count;
        out?.({ kind: 'samples', first, count, values, at });
      },
      gap(first, count) {
        open = open === undefined ? { first, count } : { first: open.first, count: open.count + count };
      },
    });
    for (const { part, packet } of early.splice(0)) take(part, packet);
  };

  const take = (part: number, packet: Packet): void => {
    if (packet.kind === 'header') {
      headers[part] ??= packet;
      if (aligner === undefined && headers.every((header) => header !== undefined)) begin();
      return;
    }
    if (packet.kind === 'status') Object.assign(told[part] ?? {}, { state: packet.state, words: packet.words });
    if (aligner === undefined) {
      early.push({ part, packet });
      return;
    }
    if (packet.at > at) at = packet.at;
    const seconds = secondsBetween(began, packet.at);
    const name = names[part];
    switch (packet.kind) {
      case 'samples':
        aligner.append(part, packet.first, packet.count, packet.values, seconds);
        return;
      case 'gap':
        cause = packet.cause;
        aligner.append(part, packet.first, packet.count, undefined, seconds);
        return;
      case 'fault':
        closeGap();
        out?.({ ...packet, near: aligner.gridOf(part, packet.near) });
        return;
      case 'status':
        if (packet.state !== 'ended') out?.({ ...packet, words: `${name}: ${packet.words}` });
        return;
      case 'clock':
        if (part === aligner.fastest) out?.({ ...packet, sample: aligner.gridOf(part, packet.sample) });
        return;
      case 'mark':
      case 'end':
        return;
    }
  };

  return {
    id,
    parts,
    alignments: () => (aligner?.alignments() ?? []).map((one, i) => ({ ...one, source: (parts[i] as Source).id })),
    states: () => told.map((one) => ({ ...one })),
    async start(emit) {
      out = emit;
      await Promise.all(parts.map((part, i) => part.start((packet) => take(i, packet))));
    },
    async stop() {
      await Promise.all(parts.map((part) => part.stop()));
      aligner?.end();
      closeGap();
      const stopped = clock.monotonic();
      if (stopped > at) at = stopped;
      out?.({ kind: 'status', state: 'ended', words: 'The sources of the rig were stopped.', at });
      if (aligner !== undefined) out?.({ kind: 'end', ...counts, at });
      out = undefined;
    },
  };
}

/** A channel under the names its part has in the rig; a made one goes on naming its own signals. */
function renamed(one: StreamChannel, names: ReadonlyMap<string, string>): StreamChannel {
  const of = (name: string) => names.get(name) ?? name;
  const { madeOf } = one;
  return {
    ...one,
    name: of(one.name),
    ...(madeOf === undefined
      ? {}
      : { madeOf: madeOf.map(({ channel, factor }) => ({ channel: of(channel), factor })) }),
  };
}
