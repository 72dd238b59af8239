import { secondsBetween } from '../../clock/time.ts';
import { byteSource } from '../byte-source.ts';
import { type CreateSourcePorts, createSource } from '../create-source.ts';
import type { SourceDescription } from '../description.ts';
import { linkOf } from '../link-of.ts';
import type { LinkTroubleCode } from '../link-trouble.ts';
import { type ProposedLayout, recogniseLayout } from '../recognise/recognise.ts';
import type { Source } from '../source.ts';
import { isStreamSource } from '../transports/streaming/stream-source.ts';
import { Heard, type HeardView } from './heard.ts';
import { type Pieces, piecesIn } from './pieces.ts';
import { tap } from './tap.ts';

/** What arrives from a source, for somebody who sets it up. */
export interface ListeningView extends HeardView {
  /** `opening`, `waiting` for the device, `silent`, `bytes` that are no samples yet, `measuring`, `down`. */
  readonly state: 'opening' | 'waiting' | 'silent' | 'bytes' | 'measuring' | 'down';
  readonly words: string;
  readonly trouble?: LinkTroubleCode;
  /** Since listening began, s. */
  readonly seconds: number;
  /** Bytes so far, and the last of them (at most 512); absent where a source has none: files, virtual plates. */
  readonly bytes?: { readonly received: number; readonly perSecond: number; readonly last: Uint8Array };
  /** Lines or frames among the last 16384 bytes, by the layout as described. */
  readonly pieces?: Pieces;
}

/** Listens to a source while its description is being written. Nothing is stored. */
export interface Listening {
  view(): ListeningView;
  /** Layouts that would fit what came so far, the likeliest first. */
  propose(): readonly ProposedLayout[];
  /**
   * Reads what comes from now on by another description of the same transport; the link stays open. Absent: bytes only.
   * False when the transport is another, and listening has to begin anew.
   */
  describe(description: SourceDescription | undefined): Promise<boolean>;
  /** Lets go of the device. */
  stop(): Promise<void>;
}

/** Silence on a standing link that is trouble, s; and how long bytes may come without making a sample. */
const silentAfter = 5;
const decodedWithin = 2;
const shownBytes = 512;
const perSecondOver = 1;

/**
 * Begins to listen; does not wait for the link to stand, so it never hangs.
 *
 * @param described what is known so far: a whole description, or only how the bytes come in
 */
export function listenTo(
  described: { readonly transport: SourceDescription['transport']; readonly description?: SourceDescription },
  ports: CreateSourcePorts,
): Listening {
  const { transport } = described;
  const link = linkOf({ transport }, ports);
  return link === undefined ? whole(described, ports) : bytes(described, ports);
}

type Described = Parameters<typeof listenTo>[0];

const sameTransport = (a: SourceDescription['transport'], b: SourceDescription['transport']) =>
  JSON.stringify(a) === JSON.stringify(b);

function bytes({ transport, description }: Described, ports: CreateSourcePorts): Listening {
  const { clock } = ports;
  const link = linkOf({ transport }, ports);
  if (link === undefined) throw new Error('this transport has no bytes');
  const tapped = tap(link);
  const began = clock.monotonic();
  let source: Source | undefined;
  let heard = new Heard();
  let reading: SourceDescription | undefined;
  /** Bytes received when the reading began, and when the first of them came. */
  let readFrom = 0;
  let firstRead: bigint | undefined;
  const counted: { at: bigint; received: number }[] = [];
  let lastReceived = 0;
  let lastHeard = began as bigint;

  const read = async (by: SourceDescription | undefined): Promise<void> => {
    await source?.stop();
    source = undefined;
    heard = new Heard();
    readFrom = tapped.received;
    firstRead = undefined;
    reading = by;
    if (by?.layout === undefined) return;
    source = byteSource(by, ports, tapped.reading());
    const mine = heard;
    await source.start((packet) => mine.take(packet));
  };
  const ready = read(description);

  const look = (at: bigint): number => {
    const { received } = tapped;
    if (received !== lastReceived) lastHeard = at;
    lastReceived = received;
    if (received > readFrom) firstRead ??= at;
    counted.push({ at, received });
    while (counted.length > 2 && Number(at - (counted[1]?.at ?? at)) / 1e9 > perSecondOver) counted.shift();
    const first = counted[0];
    const seconds = first === undefined ? 0 : Number(at - first.at) / 1e9;
    return first === undefined || seconds <= 0 ? 0 : (received - first.received) / seconds;
  };

  return {
    view() {
      const at = clock.monotonic();
      const perSecond = look(at);
      const view = heard.view();
      const { now, received } = tapped;
      const pieces = reading === undefined ? undefined : piecesIn(tapped.bytes, reading);
      const found = stateOf({
        now,
        received,
        serial: transport.kind === 'serial',
        pieces,
        view,
        silence: Number(at - lastHeard) / 1e9,
        reading: firstRead === undefined ? 0 : Number(at - firstRead) / 1e9,
        likely: () => recogniseLayout(tapped.bytes).length > 0,
      });
      return {
        ...view,
        ...found,
        ...(pieces === undefined ? {} : { pieces }),
        seconds: secondsBetween(began, at),
        bytes: { received, perSecond, last: tapped.bytes.slice(-shownBytes) },
      };
    },
    propose: () => recogniseLayout(tapped.bytes),
    async describe(next) {
      await ready;
      if (next !== undefined && !sameTransport(next.transport, transport)) return false;
      await read(next);
      return true;
    },
    async stop() {
      await ready;
      await source?.stop();
      await tapped.stop();
    },
  };
}

interface Facts {
  readonly now: { readonly state: string; readonly words: string; readonly trouble?: LinkTroubleCode };
  readonly received: number;
  readonly serial: boolean;
  readonly pieces: Pieces | undefined;
  readonly view: HeardView;
  readonly silence: number;
  readonly reading: number;
  /** Whether the bytes look like anything usual; dear, so asked only where it matters. */
  readonly likely: () => boolean;
}

function stateOf(facts: Facts): Pick<ListeningView, 'state' | 'words' | 'trouble'> {
  const { now, received, pieces, silence } = facts;
  if (now.state === 'opening') return { state: 'opening', words: now.words };
  if (now.state !== 'open')
    return now.trouble === undefined
      ? { state: 'waiting', words: now.words, ...(silence > silentAfter ? { trouble: 'source-no-bytes' } : {}) }
      : { state: 'down', words: now.words, trouble: now.trouble };
  if (silence > silentAfter)
    return { state: 'silent', words: 'The link stands, but nothing comes.', trouble: 'source-no-bytes' };
  if (received === 0) return { state: 'silent', words: 'The link stands; nothing has come yet.' };
  const damaged = pieces?.kind === 'frames' && pieces.found >= 4 && pieces.right < pieces.found / 2;
  if (facts.view.counts.samples > 0)
    return damaged
      ? { state: 'measuring', words: 'Samples come, but most frames are damaged.', trouble: 'source-checksum-wrong' }
      : { state: 'measuring', words: 'Samples come.' };
  const words = 'Bytes come.';
  if (pieces === undefined || facts.reading < decodedWithin) return { state: 'bytes', words };
  if (damaged) return { state: 'bytes', words, trouble: 'source-checksum-wrong' };
  const senseless = facts.serial && !facts.likely();
  return { state: 'bytes', words, trouble: senseless ? 'source-baud-doubtful' : 'source-not-decoded' };
}

/** Streams, files and virtual plates: no bytes, the source itself is heard. */
function whole({ transport, description }: Described, ports: CreateSourcePorts): Listening {
  const { clock } = ports;
  const began = clock.monotonic();
  let heard = new Heard();
  let source: Source | undefined;
  let failed: string | undefined;
  let started: Promise<void> = Promise.resolve();
  const begin = (by: SourceDescription | undefined): void => {
    heard = new Heard();
    failed = undefined;
    if (by === undefined) return;
    const mine = heard;
    try {
      source = createSource(by, ports);
      started = source
        .start((packet) => mine.take(packet))
        .catch((error: Error) => {
          failed = error.message;
        });
    } catch (error) {
      failed = (error as Error).message;
    }
  };
  const end = async (): Promise<void> => {
    const one = source;
    source = undefined;
    await started;
    await one?.stop();
  };
  begin(description);
  return {
    view() {
      const view = heard.view();
      const { samples } = view.counts;
      const told = failed ?? view.told?.words ?? 'Nothing has come yet.';
      const unread = failed !== undefined || (samples === 0 && view.told?.state === 'lost');
      const trouble =
        source !== undefined && isStreamSource(source)
          ? source.trouble()
          : unread
            ? ('source-file-unreadable' as const)
            : undefined;
      const comes = samples > 0 && (trouble === undefined || trouble === 'source-file-unreadable');
      return {
        ...view,
        state: comes ? 'measuring' : trouble === undefined ? 'waiting' : 'down',
        words: comes ? 'Samples come.' : told,
        ...(trouble === undefined ? {} : { trouble }),
        seconds: secondsBetween(began, clock.monotonic()),
      };
    },
    propose: () => [],
    async describe(next) {
      if (next !== undefined && !sameTransport(next.transport, transport)) return false;
      await end();
      begin(next);
      return true;
    },
    stop: end,
  };
}
