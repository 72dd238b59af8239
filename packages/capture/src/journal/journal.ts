import type { MonotonicNanoseconds } from '@sthene/core';
import type { GapPacket, MarkPacket, Packet } from '../packets/packet.ts';
import { ClockWatch, secondsOf } from './clock-watch.ts';
import { crc32c } from './crc32c.ts';
import { isDiskFull, type RunningHash } from './file-port.ts';
import { DiskForecast } from './forecast.ts';
import { encodeFrame } from './frame.ts';
import type { Confirmed, Journal, JournalOptions, Summary, SyncResult } from './options.ts';
import { bodiesOf, type FrameBody, jsonBytes } from './packet-frames.ts';
import { keepReserve, releaseReserve } from './reserve.ts';
import { journalFormat } from './segment-head.ts';
import { SegmentWriter, StoreFailure, type WaitingFrame } from './segment-writer.ts';
import { type JournalStatusCode, journalStatus } from './status.ts';
import { Tally } from './tally.ts';
import { systemTimer } from './timer.ts';

const mebibyte = 1024 * 1024;
/** First wait after a second failure in a row, and the longest, s. */
const shortestPause = 0.25;
const longestPause = 4;
/** A sync that takes longer is told, s. */
const slowSync = 1;
const diskLookSeconds = 5;

/**
 * Opens a new capture.
 *
 * @throws the port's error when not even the first file can be made: there is no recording then, and nothing was promised
 */
export async function openJournal(options: JournalOptions): Promise<Journal> {
  const { port, folder, reserveBytes = 32 * mebibyte } = options;
  await port.makeFolder(folder);
  const missing = reserveBytes > 0 ? await keepReserve(port, folder, reserveBytes) : undefined;
  const writer = new SegmentWriter(port, folder, options.segmentBytes ?? 16 * mebibyte);
  await writer.claim();
  const journal = new OpenJournal(options, writer);
  if (missing !== undefined) journal.tell('reserve-missing', { cause: missing });
  return journal;
}

class OpenJournal implements Journal {
  readonly #options: JournalOptions;
  readonly #writer: SegmentWriter;
  readonly #tag: number;
  readonly #watch: ClockWatch;
  readonly #forecast = new DiskForecast();
  readonly #tally = new Tally();
  readonly #hash: RunningHash;
  readonly #syncEvery: number;
  readonly #queueBytes: number;
  /** Numbered frames that are not yet safe, in order. */
  #waiting: WaitingFrame[] = [];
  #waitingBytes = 0;
  #sequence = 0;
  #confirmed: Confirmed;
  #confirmedSequence = 0;
  #running: Promise<void> | undefined;
  #syncBegan: bigint | undefined;
  #toldSlow = false;
  /** Failures in a row, and runs that ended in one. */
  #failures = 0;
  #failedRuns = 0;
  #urgent = false;
  #begun = false;
  #pauseUntil: bigint | undefined;
  #refusing = false;
  #refused = 0;
  #refusedEnd = 0;
  #lastDiskLook: bigint | undefined;
  #warned = false;
  #closing: Promise<Summary> | undefined;
  #stopBeat: () => void = () => {};

  constructor(options: JournalOptions, writer: SegmentWriter) {
    this.#options = options;
    this.#writer = writer;
    this.#watch = new ClockWatch(options.clock);
    this.#hash = options.port.sha256();
    this.#syncEvery = options.syncEvery ?? 0.05;
    this.#queueBytes = options.queueBytes ?? 32 * mebibyte;
    const { header, session, clock } = options;
    this.#tag = crc32c(jsonBytes([writer.capture, session, header.source, String(header.at), header.wallClock]));
    this.#confirmed = { sample: 0, bytes: 0, at: clock.monotonic() };
    this.#beat();
  }

  get capture(): string {
    return this.#writer.capture;
  }

  tell(code: JournalStatusCode, details: Readonly<Record<string, string | number>> = {}): void {
    this.#safely(() => this.#options.onStatus?.(journalStatus(code, details)));
  }

  /** A listener's fault must not stop the recording. */
  #safely(act: () => void): void {
    try {
      act();
    } catch {}
  }

  confirmed(): Confirmed {
    return this.#confirmed;
  }

  disk() {
    return this.#forecast.outlook(secondsOf(this.#options.clock.monotonic()));
  }

  append(packet: Packet): void {
    if (this.#closing !== undefined) {
      this.tell('late-packet', { kind: packet.kind });
      return;
    }
    const now = this.#options.clock.monotonic();
    this.#notice(now);
    if (!this.#begun) {
      this.#begun = true;
      this.#takeClock();
    }
    if (packet.kind === 'header' && packet.at === this.#options.header.at) return;
    if (packet.kind === 'samples' && this.#full(packet.first, packet.count)) return;
    // The engine and replays rely on it: what is missing is always named, here at the latest.
    const hole = this.#tally.holeBefore(packet);
    if (hole !== undefined) this.#take({ kind: 'gap', ...hole, cause: 'lost', at: packet.at } satisfies GapPacket);
    this.#take(packet);
    const waited = secondsOf(now - (this.#waiting[0]?.since ?? now));
    const urgent = packet.kind === 'mark' || packet.kind === 'end' || packet.kind === 'gap';
    this.#urgent ||= urgent;
    if (urgent || waited >= this.#syncEvery) this.#wake();
  }

  mark(packet: MarkPacket): Promise<SyncResult> {
    this.append(packet);
    return this.sync();
  }

  async sync(): Promise<SyncResult> {
    const wanted = this.#sequence;
    const before = this.#failedRuns;
    while (this.#confirmedSequence < wanted) {
      await (this.#running ?? this.#run());
      if (this.#confirmedSequence < wanted && this.#failedRuns > before) break;
    }
    return { ...this.#confirmed, complete: this.#confirmedSequence >= wanted };
  }

  close(): Promise<Summary> {
    this.#closing ??= this.#close();
    return this.#closing;
  }

  async #close(): Promise<Summary> {
    const { clock, timer = systemTimer, closeWithin = 5 } = this.#options;
    this.#takeClock();
    this.#nameRefused(clock.monotonic());
    const counts = this.#tally.counts();
    const sha256 = this.#hash.hex();
    const frames = this.#sequence;
    const payload = jsonBytes({ ...counts, frames, sha256 });
    this.#frame({ kind: 'closing', sample: counts.endSample, at: clock.monotonic(), payload }, false);
    let overdue = false;
    let cancel = () => {};
    const limit = new Promise<void>((resolve) => {
      cancel = timer.after(closeWithin, () => {
        overdue = true;
        resolve();
      });
    });
    const finish = async () => {
      for (let attempt = 0; attempt < 3 && !overdue && !(await this.sync()).complete; attempt++);
      await this.#writer.close().catch(() => {});
    };
    await Promise.race([finish(), limit]);
    cancel();
    this.#stopBeat();
    return {
      capture: this.capture,
      complete: this.#waiting.length === 0,
      ...counts,
      frames,
      sha256,
      bytes: this.#confirmed.bytes,
      segments: this.#writer.segments,
      suspects: this.#writer.suspects,
      refused: this.#refused,
    };
  }

  /** Refuses samples while the queue is full, until half of it is free. */
  #full(first: number, count: number): boolean {
    if (this.#waitingBytes < this.#queueBytes / (this.#refusing ? 2 : 1)) {
      this.#refusing = false;
      return false;
    }
    if (!this.#refusing) this.tell('samples-refused', { first });
    this.#refusing = true;
    this.#refused += count;
    this.#refusedEnd = first + count;
    return true;
  }

  /** Names samples that were refused and after which none came. */
  #nameRefused(at: MonotonicNanoseconds): void {
    const first = this.#tally.next;
    if (first === undefined || this.#refusedEnd <= first) return;
    this.#take({ kind: 'gap', first, count: this.#refusedEnd - first, cause: 'lost', at });
  }

  #take(packet: Packet): void {
    const bodies = bodiesOf(packet, this.#tally.next ?? 0);
    if (bodies.length === 1) {
      const before =
        this.#tally.next ?? (packet.kind === 'samples' || packet.kind === 'gap' ? packet.first : undefined);
      this.#tally.add(packet);
      this.#frame(bodies[0] as FrameBody, true, before);
      return;
    }
    if (packet.kind !== 'samples') return;
    for (const [i, body] of bodies.entries()) {
      const before = this.#tally.next ?? body.sample;
      const end = bodies[i + 1]?.sample ?? packet.first + packet.count;
      const values = packet.values.subarray(0, 0);
      this.#tally.add({ ...packet, first: body.sample, count: end - body.sample, values });
      this.#frame(body, true, before);
    }
  }

  #frame(body: FrameBody, counted: boolean, before = this.#tally.next): void {
    const bytes = encodeFrame({ ...body, tag: this.#tag, sequence: this.#sequence });
    if (counted) this.#hash.update(bytes);
    const since = this.#options.clock.monotonic();
    this.#waiting.push({ bytes, sequence: this.#sequence, since, before, after: this.#tally.next });
    this.#waitingBytes += bytes.length;
    this.#sequence++;
  }

  /** Sees whether the station stood still, and marks it before anything that came afterwards. */
  #notice(now: MonotonicNanoseconds): void {
    const seconds = this.#watch.beat(now);
    if (seconds === undefined) return;
    const rounded = Math.round(seconds * 1000) / 1000;
    const sample = this.#tally.next ?? 0;
    this.#take({ kind: 'mark', sample, label: 'station-stood-still', data: { seconds: rounded }, at: now });
    this.tell('station-stood-still', { seconds: rounded });
    this.#takeClock();
  }

  #takeClock(): void {
    // The first clock frame comes with the first packet, so that the head of the file can say where samples begin.
    if (!this.#begun) return;
    const { at, wallClock, due, wallStep } = this.#watch.look();
    if (!due) return;
    const step = wallStep === undefined ? {} : { wallStep };
    this.#take({ kind: 'clock', sample: this.#tally.next ?? 0, at, wallClock, ...step });
    if (wallStep !== undefined) this.tell('wall-clock-jumped', { seconds: Math.round(wallStep * 1000) / 1000 });
  }

  /** Twenty times a second: clocks, a tail that waits, the disk, and a drive that does not answer. */
  #beat(): void {
    const { clock, timer = systemTimer } = this.#options;
    const now = clock.monotonic();
    if (this.#closing === undefined) {
      this.#notice(now);
      this.#takeClock();
    }
    if (this.#waiting.length > 0) this.#wake();
    if (this.#syncBegan !== undefined && secondsOf(now - this.#syncBegan) >= slowSync && !this.#toldSlow) {
      this.#toldSlow = true;
      this.tell('sync-slow', { seconds: slowSync });
    }
    this.#lookAtDisk(now);
    this.#stopBeat = timer.after(this.#syncEvery, () => this.#beat());
  }

  #lookAtDisk(now: MonotonicNanoseconds): void {
    if (this.#lastDiskLook !== undefined && secondsOf(now - this.#lastDiskLook) < diskLookSeconds) return;
    this.#lastDiskLook = now;
    this.#options.port.freeBytes(this.#options.folder).then(
      (bytes) => {
        this.#forecast.free(bytes, secondsOf(now));
        const { warning, minutesLeft } = this.#forecast.outlook(secondsOf(now));
        if (warning && !this.#warned) {
          this.tell('disk-nearly-full', { minutes: Math.floor(minutesLeft ?? 0) });
        } else if (!warning && this.#warned) this.tell('disk-room-again');
        this.#warned = warning;
      },
      // Without this knowledge there is no forecast; a full disk still shows when writing.
      () => {},
    );
  }

  #wake(): void {
    const paused = this.#pauseUntil !== undefined && this.#options.clock.monotonic() < this.#pauseUntil;
    if (this.#running === undefined && !paused) void this.#run();
  }

  /** Writes what waits now, and what becomes urgent meanwhile; ends early when two attempts failed. */
  #run(): Promise<void> {
    this.#running = this.#storeAll().finally(() => {
      this.#running = undefined;
      this.#syncBegan = undefined;
    });
    return this.#running;
  }

  async #storeAll(): Promise<void> {
    const { clock, session, header } = this.#options;
    let attempts = 0;
    let target = this.#sequence;
    this.#urgent = false;
    while (this.#confirmedSequence < target) {
      const began = clock.monotonic();
      this.#syncBegan = began;
      const facts = { format: journalFormat, session, header, confirmedSample: this.#confirmed.sample } as const;
      try {
        const stored = await this.#writer.store(this.#waiting.slice(), this.#tag, facts, secondsOf(began));
        this.#confirm(stored.taken, stored.bytes);
        if (this.#failures > 0) this.tell('written-again', { segment: stored.segment });
        this.#failures = 0;
        this.#pauseUntil = undefined;
      } catch (error) {
        if (!(error instanceof StoreFailure)) throw error;
        if (!(await this.#failed(error, attempts++))) return;
      }
      if (this.#urgent) target = this.#sequence;
      this.#urgent = false;
    }
  }

  #confirm(taken: number, bytes: number): void {
    const done = this.#waiting.splice(0, taken);
    for (const frame of done) this.#waitingBytes -= frame.bytes.length;
    const last = done.at(-1) as WaitingFrame;
    const at = this.#options.clock.monotonic();
    this.#confirmedSequence = last.sequence + 1;
    this.#toldSlow = false;
    this.#confirmed = { sample: last.after ?? 0, bytes: this.#confirmed.bytes + bytes, at };
    this.#forecast.wrote(bytes, secondsOf(at));
    this.#safely(() => this.#options.onConfirmed?.(this.#confirmed));
  }

  /** Tells, makes room if it can, and says whether to try again at once. */
  async #failed({ act, code }: StoreFailure, attempts: number): Promise<boolean> {
    this.#failures++;
    // A cause is told once, not at every attempt.
    if (this.#failures === 1) this.tell(act === 'sync' ? 'sync-failed' : 'write-failed', { cause: code });
    if (isDiskFull(code) && (await releaseReserve(this.#options.port, this.#options.folder))) {
      this.tell('reserve-released', { cause: code });
      return true;
    }
    if (attempts === 0) return true;
    this.#failedRuns++;
    const pause = Math.min(longestPause, shortestPause * 2 ** Math.min(10, this.#failures - 2));
    this.#pauseUntil = (this.#options.clock.monotonic() + BigInt(Math.round(pause * 1e9))) as MonotonicNanoseconds;
    return false;
  }
}
