import type { AppendFile, JournalFilePort } from './file-port.ts';
import { errorCode } from './file-port.ts';
import { encodeFrame, type Frame } from './frame.ts';
import { captureName, nextCaptureNumber, segmentName } from './names.ts';
import { boundaryPayload, headBytesOf, type SegmentHead } from './segment-head.ts';

/** A frame that is not yet confirmed, as bytes. */
export interface WaitingFrame {
  readonly bytes: Uint8Array;
  readonly sequence: number;
  /** When it came. */
  readonly since: bigint;
  /** Index of the next sample before and after this frame; undefined before the first sample. */
  readonly before: number | undefined;
  readonly after: number | undefined;
}

/** A boundary frame is due after this many seconds. */
const boundarySeconds = 10;
/**
 * A drive writes whole pages. What was confirmed in the page that was being written when a sync failed is written again
 * with the rest, in case the page was torn.
 */
const pageBytes = 4096;

interface OpenSegment {
  readonly name: string;
  readonly file: AppendFile;
  /** Bytes given to the file, and how many of them are confirmed. */
  size: number;
  confirmed: number;
  boundaryAt: number;
  /** Confirmed frames that touch the last page. */
  lastPage: { frame: WaitingFrame; end: number }[];
}

/** A segment was given up: which act failed, and the system's code. */
export class StoreFailure extends Error {
  readonly act: 'write' | 'sync';
  readonly code: string;

  constructor(act: 'write' | 'sync', code: string) {
    super(`${act} failed: ${code}`);
    this.act = act;
    this.code = code;
  }
}

/** Facts a segment's head needs at the moment it is written. */
export type HeadFacts = Omit<SegmentHead, 'segment' | 'suspects' | 'capture' | 'nextSample'>;

/** Writes frames into segments of limited size and confirms them. One call at a time. */
export class SegmentWriter {
  readonly #port: JournalFilePort;
  readonly #folder: string;
  readonly #segmentBytes: number;
  readonly #suspects: number[] = [];
  #open: OpenSegment | undefined;
  #nextSegment = 0;
  #capture = '';
  #again: WaitingFrame[] = [];

  constructor(port: JournalFilePort, folder: string, segmentBytes: number) {
    this.#port = port;
    this.#folder = folder;
    this.#segmentBytes = segmentBytes;
  }

  get capture(): string {
    return this.#capture;
  }
  get segments(): number {
    return this.#nextSegment;
  }
  get suspects(): readonly number[] {
    return this.#suspects;
  }

  /** Takes a free number for the capture. The first segment's file holds the place, so two openers never share one. */
  async claim(): Promise<void> {
    let number = nextCaptureNumber((await this.#port.list(this.#folder)).map(({ name }) => name));
    for (;;) {
      try {
        this.#capture = captureName(number);
        await this.#create();
        return;
      } catch (error) {
        if (errorCode(error) !== 'EEXIST') throw error;
        number++;
        this.#nextSegment = 0;
      }
    }
  }

  /**
   * Writes as many frames as the segment takes and makes them durable.
   *
   * @returns how many of `frames` are now safe (at least one) and the bytes this took
   * @throws StoreFailure; the segment is then closed for good and nothing of `frames` counts as safe
   */
  async store(frames: readonly WaitingFrame[], tag: number, facts: HeadFacts, now: number) {
    let act: StoreFailure['act'] = 'write';
    try {
      const first = frames[0] as WaitingFrame;
      if (
        this.#open !== undefined &&
        this.#open.size > 0 &&
        this.#open.size + first.bytes.length > this.#segmentBytes
      ) {
        const full = this.#open;
        this.#open = undefined;
        await full.file.close();
      }
      const segment = this.#open ?? (await this.#create());
      const fresh = segment.size === 0;
      const pieces: Uint8Array[] = [];
      let size = segment.size;
      const put = (bytes: Uint8Array) => {
        pieces.push(bytes);
        size += bytes.length;
      };
      const written: { frame: WaitingFrame; end: number }[] = [];
      const opening = fresh ? [...this.#again, ...frames] : frames;
      const head = this.#head(facts, opening);
      const own = (kind: 'segment' | 'boundary', payload: Uint8Array): Uint8Array => {
        const { sequence, before } = opening[0] as WaitingFrame;
        const frame: Frame = { kind, tag, sequence, sample: before ?? 0, at: facts.header.at, payload };
        return encodeFrame(frame);
      };
      if (fresh) put(own('segment', headBytesOf(head)));
      if (fresh || now - segment.boundaryAt >= boundarySeconds) {
        put(own('boundary', boundaryPayload(head)));
        segment.boundaryAt = now;
      }
      let taken = fresh ? -this.#again.length : 0;
      for (const frame of opening) {
        if (taken > 0 && size + frame.bytes.length > this.#segmentBytes) break;
        put(frame.bytes);
        written.push({ frame, end: size });
        taken++;
      }
      const bytes = size - segment.size;
      segment.size = size;
      await segment.file.write(joined(pieces, bytes));
      act = 'sync';
      await segment.file.sync();
      if (fresh) await this.#port.syncFolder(this.#folder);
      segment.confirmed = size;
      const page = size - (size % pageBytes);
      segment.lastPage = [...segment.lastPage, ...written].filter(({ end }) => end > page);
      this.#again = [];
      return { taken, bytes, segment: segment.name, fresh };
    } catch (error) {
      await this.#giveUp();
      throw new StoreFailure(act, errorCode(error));
    }
  }

  async close(): Promise<void> {
    const segment = this.#open;
    this.#open = undefined;
    await segment?.file.close();
  }

  #head(facts: HeadFacts, frames: readonly WaitingFrame[]): SegmentHead {
    const nextSample = frames.find(({ before }) => before !== undefined)?.before;
    const segment = this.#nextSegment - 1;
    const head = { ...facts, capture: this.#capture, segment, suspects: [...this.#suspects] };
    return nextSample === undefined ? head : { ...head, nextSample };
  }

  async #create(): Promise<OpenSegment> {
    const name = segmentName(this.#capture, this.#nextSegment);
    const file = await this.#port.create(`${this.#folder}/${name}`);
    this.#nextSegment++;
    this.#open = { name, file, size: 0, confirmed: 0, boundaryAt: 0, lastPage: [] };
    return this.#open;
  }

  /** Never writes to a file again after one failure: what it reports from now on means nothing. */
  async #giveUp(): Promise<void> {
    const segment = this.#open;
    this.#open = undefined;
    if (segment === undefined) {
      // The file could not even be made; its name may be taken by now.
      this.#nextSegment++;
      return;
    }
    await segment.file.close().catch(() => {});
    this.#suspects.push(this.#nextSegment - 1);
    if (segment.confirmed > 0) this.#again = segment.lastPage.map(({ frame }) => frame);
    // A file without anything confirmed only takes space; its frames are still in memory. The first one holds the number.
    else if (this.#nextSegment > 1) await this.#port.remove(`${this.#folder}/${segment.name}`).catch(() => {});
  }
}

function joined(pieces: readonly Uint8Array[], length: number): Uint8Array {
  const whole = new Uint8Array(length);
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}
