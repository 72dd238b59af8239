import { type ForceSelection, forcesOf, protocolRegistry, reasons, unitOfForces } from '@sthene/core';
import type { Ask, CurveAnswer } from './messages.ts';
import { readFile } from './read-file.ts';

/** The forces of one recording of a file under a mapping, as the import would use them. */
export async function curveOf(ask: Ask & { ask: 'curve' }): Promise<CurveAnswer> {
  const read = await readFile(ask.file, ask.reading);
  if (!read.ok) return { ok: false, code: read.error.code, message: read.error.message, next: read.error.next };
  const found = read.recordings.find(({ label }) => label === ask.label) ?? read.recordings[0];
  const protocol = protocolRegistry.get(ask.test);
  if (found === undefined || protocol === undefined)
    return { ok: false, code: 'no-force-channel', message: reasons['no-force-channel'].means, next: '' };
  const selection = { inputs: ask.inputs } as ForceSelection;
  const forces = forcesOf(found.recording, selection, unitOfForces(found.recording, selection, protocol));
  if (!forces.ok) {
    const { means, next } = reasons[forces.reason];
    return { ok: false, code: forces.reason, message: means, next };
  }
  const { sampleRate, sampleCount, unit, total, left, right, gaps } = forces.value;
  // Copies: the same array may stand behind total and a side, and what is sent away is gone here.
  return {
    ok: true,
    curve: {
      sampleRate,
      samples: sampleCount,
      unit,
      total: total.slice(),
      ...(left === undefined ? {} : { left: left.slice() }),
      ...(right === undefined ? {} : { right: right.slice() }),
      gaps,
    },
  };
}
