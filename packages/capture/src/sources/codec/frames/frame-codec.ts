import type { FrameLayout } from '../../description.ts';
import type { Codec, CodecReader } from '../run.ts';
import { checkOf, framePlan, runsOf } from './frame-plan.ts';

/**
 * Binary frames of fixed length.
 *
 * In step, frames follow each other without a gap. A frame whose sync bytes or checksum are wrong is damage; from its second
 * byte on the next believable frame is sought: sync bytes with a right checksum (a sum of one byte is also right by chance once
 * in 256, so there the next frame's sync bytes have to follow as well). Without a checksum a frame always waits for the sync
 * bytes of the next one, so that a frame cut short is never mixed with its successor.
 *
 * Damage counts the frames that fell out: bytes passed over divided by the frame's length, at least one fault. Memory is bounded
 * by two frames and the piece being fed; lengths come from the description, never from the bytes.
 */
export function frameCodec(layout: FrameLayout, channels: readonly string[], reader: CodecReader): Codec {
  const plan = framePlan(layout, channels);
  const right = checkOf(plan);
  const { length, sync } = plan;
  const plain = plan.checksum.kind === 'none';
  const weak = plain || plan.checksum.kind === 'sum8' || plan.checksum.kind === 'xor8';
  let buffer = new Uint8Array(2 * length + 4096);
  let view = new DataView(buffer.buffer);
  let start = 0;
  let end = 0;
  let inStep = false;
  /** Bytes passed over since the last good frame, and whether the first of them was in step. */
  let passed = 0;
  let lostStep = false;
  let wrongSums = 0;

  const syncAt = (at: number): boolean => {
    for (let i = 0; i < sync.length; i++) if (buffer[at + i] !== sync[i]) return false;
    return true;
  };

  const tellDamage = (): void => {
    if (passed > 0 && lostStep) {
      const frames = Math.round(passed / length);
      const unreadable = Math.max(wrongSums === 0 ? 1 : 0, frames - wrongSums);
      if (wrongSums > 0) reader.damage({ fault: 'checksum', count: wrongSums, samples: wrongSums * plan.samples });
      if (unreadable > 0) {
        reader.damage({
          fault: 'unreadable',
          count: unreadable,
          samples: Math.max(0, frames - wrongSums) * plan.samples,
        });
      }
    }
    passed = 0;
    wrongSums = 0;
    lostStep = false;
  };

  const pass = (): void => {
    if (inStep) {
      inStep = false;
      lostStep = true;
    }
    // A wrong checksum exactly where a frame was due is a damaged frame, not a chance likeness inside one.
    if (lostStep && !plain && passed % length === 0 && syncAt(start)) wrongSums++;
    start++;
    passed++;
  };

  const take = (): void => {
    const runs = runsOf(plan, view, start);
    if (runs === undefined) {
      // Sync and checksum are right, so the next frame still follows in step.
      tellDamage();
      reader.damage({ fault: 'unreadable', count: 1, samples: plan.samples });
    } else {
      tellDamage();
      for (const run of runs) reader.run(run);
    }
    start += length;
    inStep = true;
  };

  const work = (last: boolean): void => {
    while (end - start >= length) {
      const good = syncAt(start) && right(buffer, start);
      const nextNeeded = plain || (weak && !inStep);
      if (!good) pass();
      else if (!nextNeeded) take();
      else if (end - start >= length + sync.length) {
        if (syncAt(start + length)) take();
        else pass();
      } else if (last) take();
      else break;
    }
  };

  return {
    feed(bytes) {
      for (let from = 0; from < bytes.length; ) {
        if (start > 0) {
          buffer.copyWithin(0, start, end);
          end -= start;
          start = 0;
        }
        const room = Math.min(bytes.length - from, buffer.length - end);
        buffer.set(bytes.subarray(from, from + room), end);
        from += room;
        end += room;
        work(false);
      }
    },
    end() {
      work(true);
      const rest = end - start;
      // What is left at the end was a frame when it begins like one, or when frames were under way.
      if (rest > 0 && (inStep || lostStep)) {
        lostStep = true;
        passed += rest;
        const frames = Math.max(1, Math.round(passed / length));
        reader.damage({ fault: 'unreadable', count: frames, samples: 0 });
      } else if (rest > 0 || passed > 0) {
        reader.damage({ fault: 'unreadable', count: 1, samples: 0 });
      }
      buffer = new Uint8Array(buffer.length);
      view = new DataView(buffer.buffer);
      start = end = passed = wrongSums = 0;
      inStep = lostStep = false;
    },
  };
}
