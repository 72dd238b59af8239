import type { Notice, Recording } from '@sthene/core';
import type { FormatError } from '../format-error.ts';
import { refusal } from './errors.ts';
import { type Grouping, groupingOf } from './grouping.ts';
import { blockSize } from './header.ts';
import { ownGroupText } from './own-group.ts';
import { parameterRecords } from './write-parameters.ts';
import { planOf, type WritePlan } from './write-plan.ts';

/** A written file with what could not be kept exactly, or why there is none. */
export type C3dWritten =
  | { readonly ok: true; readonly bytes: Uint8Array; readonly notices: readonly Notice[] }
  | { readonly ok: false; readonly error: FormatError };

function writeHeader(
  view: DataView,
  recording: Recording,
  plan: WritePlan,
  grouping: Grouping,
  dataStart: number,
): void {
  view.setUint8(0, 2);
  view.setUint8(1, 0x50);
  view.setUint16(4, plan.channels.length * grouping.samplesPerFrame, true);
  view.setUint16(6, 1, true);
  view.setUint16(8, Math.min(grouping.frames, 65535), true);
  view.setFloat32(12, -1, true);
  view.setUint16(16, dataStart, true);
  view.setUint16(18, grouping.samplesPerFrame, true);
  view.setFloat32(20, recording.sampleRate / grouping.samplesPerFrame, true);
  view.setUint16(298, 12345, true);
}

function writeData(view: DataView, at: number, plan: WritePlan, sampleCount: number): void {
  const width = 4 * plan.channels.length;
  plan.channels.forEach(({ stored }, c) => {
    for (let n = 0, offset = at + 4 * c; n < sampleCount; n++, offset += width) {
      view.setFloat32(offset, stored[n] as number, true);
    }
  });
}

/** JSON of the own group, shortened by facts and notices when the section would not hold it. */
function ownTexts(plan: WritePlan): string[] {
  const { own } = plan;
  return [ownGroupText(own), ownGroupText({ ...own, description: { ...own.description, facts: {}, notices: [] } })];
}

/**
 * Writes a recording as C3D: Intel numbers, floats, no points; all channels as analog channels with their scaling, complete
 * platforms in FORCE_PLATFORM, events in EVENT, and the group STHENE with what those cannot hold.
 *
 * Precision: raw values that 32-bit floats hold, directly, as whole numbers over a power of ten, or as a sum of up to three,
 * return exactly. Others (beyond the range of floats) are rounded to the nearest float, and a `c3d-precision` notice, kept in
 * the file too, names the largest difference.
 *
 * Errors: `c3d-nothing-to-write` (no channels or no samples), `c3d-too-many-channels`, `c3d-too-many-parameters`.
 *
 * Source: C3D User Guide (c3d.org), methods/jumps-and-plates.md section 3.7.
 */
export function writeC3d(recording: Recording): C3dWritten {
  const plan = planOf(recording);
  const notices = [...plan.notices];
  if (plan.channels.length === 0 || recording.sampleCount === 0) {
    return refusal('c3d-nothing-to-write', 'The recording holds no samples.', 'Choose a recording with at least one.');
  }
  if (plan.channels.length > 65535) {
    return refusal(
      'c3d-too-many-channels',
      `A C3D file counts channels in 16 bits; the recording has ${plan.channels.length}.`,
      'Write fewer channels, or another format.',
    );
  }
  const pointRate = Number(recording.facts['POINT:RATE']);
  const preferred = pointRate > 0 ? recording.sampleRate / pointRate : undefined;
  const grouping = groupingOf(recording.sampleCount, plan.channels.length, preferred);

  for (const [attempt, text] of ownTexts(plan).entries()) {
    const length = parameterRecords(recording, plan, grouping, text, 0).reduce((sum, part) => sum + part.length, 4);
    // One more byte, so that a zero name length always ends the records.
    const blocks = Math.ceil((length + 1) / blockSize);
    if (blocks > 255) continue;
    if (attempt > 0) {
      notices.push({ code: 'c3d-facts-left-out', message: 'The facts and notices of the recording did not fit.' });
    }
    const dataStart = 2 + blocks;
    const dataAt = (dataStart - 1) * blockSize;
    const dataBytes = Math.ceil((4 * plan.channels.length * recording.sampleCount) / blockSize) * blockSize;
    const bytes = new Uint8Array(dataAt + dataBytes);
    const view = new DataView(bytes.buffer);
    writeHeader(view, recording, plan, grouping, dataStart);
    bytes.set([1, 0x50, blocks, 84], blockSize);
    let at = blockSize + 4;
    for (const part of parameterRecords(recording, plan, grouping, text, dataStart)) {
      bytes.set(part, at);
      at += part.length;
    }
    writeData(view, dataAt, plan, recording.sampleCount);
    return { ok: true, bytes, notices };
  }
  return refusal(
    'c3d-too-many-parameters',
    'The names and descriptions of this recording do not fit into the 255 blocks a C3D file has for them.',
    'Write fewer channels, or another format.',
  );
}
