import type { Channel, Recording } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import { bytesOf } from '../src/byte-source.ts';
import type { ByteSource, Detection, ReadResult } from '../src/format.ts';
import { recordingOf, sampleRecordings } from './sample-recordings.ts';

/** One format as the suite needs it: a `Format`, or an adapter around something that writes several files. */
export interface Subject {
  readonly id: string;
  detect(head: Uint8Array, length: number, name: string): Detection;
  read(source: ByteSource): Promise<ReadResult>;
  write(recording: Recording): Promise<Uint8Array>;
  /** What the format has a place for. Left out: it has none, and the suite does not ask for it. */
  readonly holds?: {
    readonly events?: boolean;
    readonly facts?: boolean;
    readonly recordedAt?: boolean;
    /** Raw arrays of their own type, with scale and offset, instead of physical values. */
    readonly raw?: boolean;
  };
  /** Sample recordings the format cannot hold, by name, with the reason. */
  readonly cannotHold?: Readonly<Record<string, string>>;
  /** Name that a file of this format has. */
  readonly fileName: string;
}

/** Physical value of every sample. */
export function physical(channel: Channel): Float64Array {
  return Float64Array.from(channel.raw, (value) =>
    channel.scale === 1 && channel.offset === 0 ? value : (value - channel.offset) * channel.scale,
  );
}

/** A source that answers with at most `most` bytes a read, as a network or a small buffer does. */
export function shortReads(bytes: Uint8Array, most: number, name = ''): ByteSource {
  const whole = bytesOf(bytes, name);
  return { name, length: whole.length, read: (offset, length) => whole.read(offset, Math.min(length, most)) };
}

/** The suite every format runs: what was written is what is read, to the last bit. */
export function conformance(subject: Subject): void {
  const { holds = {}, cannotHold = {} } = subject;
  const samples = Object.entries(sampleRecordings());
  const read = async (bytes: Uint8Array): Promise<Recording> => {
    const result = await subject.read(bytesOf(bytes, subject.fileName));
    if (!result.ok) throw new Error(`${result.error.code}: ${result.error.message}`);
    expect(result.recordings).toHaveLength(1);
    return result.recordings[0]!.recording;
  };

  describe(`${subject.id}: written, then read`, () => {
    it('leaves out only samples that exist', () => {
      for (const name of Object.keys(cannotHold)) expect(samples.map(([sample]) => sample)).toContain(name);
      expect(Object.keys(cannotHold).length).toBeLessThan(samples.length / 2);
    });

    for (const [name, recording] of samples.filter(([sample]) => !(sample in cannotHold))) {
      it(`gives the same recording: ${name}`, async () => {
        const back = await read(await subject.write(recording));
        expect(back.sampleCount).toBe(recording.sampleCount);
        expect(Object.is(back.sampleRate, recording.sampleRate), `${back.sampleRate} Hz`).toBe(true);
        expect(back.channels.map((channel) => [channel.name, channel.unit])).toEqual(
          recording.channels.map((channel) => [channel.name, channel.unit]),
        );
        recording.channels.forEach((channel, c) => {
          const got = back.channels[c]!;
          const want = physical(channel);
          const values = physical(got);
          const wrong = want.findIndex((value, n) => !Object.is(value, values[n]));
          expect(wrong < 0 ? 'equal' : `${channel.name}[${wrong}] ${values[wrong]} for ${want[wrong]}`).toBe('equal');
          expect(values).toHaveLength(want.length);
          if (holds.raw) {
            expect(got.raw.constructor).toBe(channel.raw.constructor);
            expect([got.scale, got.offset, got.rawRange]).toEqual([channel.scale, channel.offset, channel.rawRange]);
          }
        });
        expect(back.gaps).toEqual(recording.gaps);
        if (holds.events) expect(back.events).toEqual(recording.events);
        if (holds.facts) expect(back.facts).toMatchObject(recording.facts);
        if (holds.recordedAt) expect(back.recordedAt).toBe(recording.recordedAt);
      });
    }

    it('gives the same bytes on writing twice, and on writing what was read', async () => {
      const [, recording] = samples.find(([sample]) => !(sample in cannotHold))!;
      const once = await subject.write(recording);
      expect(await subject.write(recording)).toEqual(once);
      const back = await read(once);
      const again = await subject.write(recordingOf(back.channels, { ...back, facts: recording.facts }));
      expect(again).toEqual(once);
    });

    it('reads from a source that answers in small pieces', async () => {
      const [, recording] = samples.find(([sample]) => !(sample in cannotHold))!;
      const bytes = await subject.write(recording);
      const whole = await read(bytes);
      for (const most of [1, 7, 1000]) {
        const pieces = await subject.read(shortReads(bytes, most, subject.fileName));
        expect(pieces.ok && pieces.recordings[0]!.recording).toEqual(whole);
      }
    });

    it('refuses an empty source with an error as data', async () => {
      const result = await subject.read(bytesOf(new Uint8Array(0), subject.fileName));
      expect(result.ok).toBe(false);
      if (result.ok) return;
      expect(result.error.code).toMatch(/^[a-z0-9]+(-[a-z0-9]+)+$/);
      expect(result.error.message).not.toBe('');
      expect(result.error.next).not.toBe('');
    });
  });

  describe(`${subject.id}: detection`, () => {
    for (const [name, recording] of samples.filter(([sample]) => !(sample in cannotHold))) {
      it(`knows its own file: ${name}`, async () => {
        const bytes = await subject.write(recording);
        const found = subject.detect(bytes.subarray(0, 65536), bytes.length, subject.fileName);
        expect(found.match, found.reason).toBe('yes');
        expect(found.reason).not.toBe('');
      });
    }

    it('does not claim nothing at all', () => {
      expect(subject.detect(new Uint8Array(0), 0, subject.fileName).match).not.toBe('yes');
    });
  });
}

/** No format answers yes to a file of another one. */
export function distinctDetection(subjects: readonly Subject[]): void {
  describe('formats tell each other apart', () => {
    for (const writer of subjects) {
      for (const reader of subjects.filter((other) => other.id !== writer.id)) {
        it(`${reader.id} does not claim a file of ${writer.id}`, async () => {
          let written = 0;
          for (const [name, recording] of Object.entries(sampleRecordings())) {
            // What a format refuses to write cannot be mistaken; each format's own suite says which and why.
            const bytes = await writer.write(recording).catch(() => undefined);
            if (bytes === undefined) continue;
            written++;
            // The name is no help here: a wrong ending must not decide.
            const found = reader.detect(bytes.subarray(0, 65536), bytes.length, reader.fileName);
            expect(found.match, `${name}: ${found.reason}`).not.toBe('yes');
            expect(found.reason).not.toBe('');
          }
          expect(written).toBeGreaterThan(2);
        });
      }
    }
  });
}
