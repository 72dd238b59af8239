import type { Packet } from '../packets/packet.ts';
import type { JournalFilePort } from './file-port.ts';
import type { Frame } from './frame.ts';
import { capturesIn } from './names.ts';
import { jsonObject, packetOf } from './packet-frames.ts';
import type { CaptureReport, FoundSegment, LostFrames } from './report.ts';
import { findHead, type ScannedFrame, scanSegment } from './scan.ts';
import { Tally } from './tally.ts';

/** Names of the captures in a folder, in the order in which they were opened. */
export async function listCaptures(port: JournalFilePort, folder: string): Promise<string[]> {
  return [...capturesIn((await port.list(folder)).map(({ name }) => name)).keys()];
}

/**
 * Packets of a journal as they were received, for replaying a day; all captures of the folder unless one is named. Each begins
 * with its header. What could not be read is told in place: a fault `unreadable`, and a gap `damaged` where samples were.
 * Memory holds two segments at most.
 */
export async function* readJournal(port: JournalFilePort, folder: string, capture?: string): AsyncGenerator<Packet> {
  for (const name of capture === undefined ? await listCaptures(port, folder) : [capture]) {
    yield* readCapture(port, folder, name);
  }
}

/** As `readJournal` for one capture; returns what was kept and lost. */
export async function* readCapture(
  port: JournalFilePort,
  folder: string,
  capture: string,
): AsyncGenerator<Packet, CaptureReport> {
  const names = capturesIn((await port.list(folder)).map(({ name }) => name)).get(capture) ?? [];
  const identity = await findIdentity(port, folder, capture, names);
  const hash = port.sha256();
  const tally = new Tally();
  const segments: FoundSegment[] = [];
  const lost: LostFrames[] = [];
  let expected = 0;
  let frames = 0;
  let confirmedAtLeast = 0;
  let closing: Frame | undefined;
  if (identity !== undefined) {
    yield identity.head.header;
    if (identity.head.segment === 0) tally.expect(identity.head.nextSample);
  }

  function* take(frame: ScannedFrame): Generator<Packet> {
    const packet = packetOf(frame);
    if (packet === undefined && frame.kind !== 'closing') return;
    // The journal names every hole between samples, so one without a name is damage.
    const hole = holeAt(tally, frame, packet);
    if (frame.sequence > expected) {
      const count = frame.sequence - expected;
      lost.push({ firstSequence: expected, count });
      yield { kind: 'fault', fault: 'unreadable', count, near: tally.next ?? 0, at: frame.at };
    }
    if (hole !== undefined) {
      const last = lost.pop();
      if (last !== undefined) lost.push({ ...last, samples: { start: hole.first, end: hole.first + hole.count } });
      const gap = { kind: 'gap', ...hole, cause: 'damaged', at: frame.at } as const;
      tally.add(gap);
      yield gap;
    }
    expected = frame.sequence + 1;
    if (packet === undefined) {
      closing = frame;
      return;
    }
    hash.update(frame.raw);
    frames++;
    tally.add(packet);
    yield packet;
  }

  let held: ScannedFrame[] = [];
  for (const name of identity === undefined ? [] : names) {
    const bytes = (await port.read(`${folder}/${name}`)) ?? new Uint8Array(0);
    const scan = scanSegment(bytes, (identity as { tag: number }).tag);
    const sum = port.sha256();
    sum.update(bytes);
    segments.push({ name, byteCount: bytes.length, sha256: sum.hex(), bad: scan.bad });
    confirmedAtLeast = Math.max(confirmedAtLeast, scan.confirmedSample);
    // A segment behind a suspect one repeats what was not confirmed: hold back what both have.
    const from = scan.frames[0]?.sequence ?? Number.POSITIVE_INFINITY;
    const ready = scan.frames.length === 0 ? [] : held.filter((frame) => frame.sequence < from);
    for (const frame of ready) yield* take(frame);
    held = merged(held.slice(ready.length), scan.frames);
  }
  for (const frame of held) yield* take(frame);

  const sha256 = hash.hex();
  const closed = closing === undefined ? undefined : jsonObject((closing as Frame).payload);
  const counts = tally.counts();
  const head = identity?.head;
  const header = head?.header;
  return {
    capture,
    ...(head === undefined ? {} : { session: head.session }),
    ...(header === undefined ? {} : { source: header.source, openedAt: header.wallClock }),
    ...(header?.device === undefined ? {} : { device: header.device }),
    segments,
    counts,
    frames,
    sha256,
    lost,
    closed: closed !== undefined,
    whole: closed !== undefined && lost.length === 0 && closed.sha256 === sha256 && closed.frames === frames,
    confirmedAtLeast,
    confirmedLost:
      counts.endSample < confirmedAtLeast || lost.some(({ samples }) => samples && samples.start < confirmedAtLeast),
  };
}

/** Samples between what was read and a frame behind lost ones. A frame that names no packet of samples still knows where it was. */
function holeAt(tally: Tally, frame: Frame, packet: Packet | undefined) {
  if (packet?.kind === 'samples' || packet?.kind === 'gap') return tally.holeBefore(packet);
  const next = tally.next ?? 0;
  const known = packet === undefined || packet.kind === 'end' || packet.kind === 'status' || packet.kind === 'header';
  return known && frame.sample > next ? { first: next, count: frame.sample - next } : undefined;
}

/** Frames of two segments in order of their numbers, each once. */
function merged(earlier: readonly ScannedFrame[], later: readonly ScannedFrame[]): ScannedFrame[] {
  if (earlier.length === 0) return [...later];
  const byNumber = new Map([...later, ...earlier].map((frame) => [frame.sequence, frame]));
  return [...byNumber.values()].sort((a, b) => a.sequence - b.sequence);
}

async function findIdentity(port: JournalFilePort, folder: string, capture: string, names: readonly string[]) {
  for (const name of names) {
    const bytes = await port.read(`${folder}/${name}`);
    const found = bytes && findHead(bytes, capture);
    if (found !== undefined) return found;
  }
  return undefined;
}
