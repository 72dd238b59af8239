import type { PressurePart, TrialPressure } from '@sthene/contract';
import { type PressurePath, pathFigures, pressureOf, type SampleSpan, type TrialResult } from '@sthene/core';
import type { OpenLab } from '../labs/open-lab.ts';
import { problems } from '../server/problem-error.ts';
import { readRecording } from './read-recording.ts';

/** Points of a part; a figure shows no more. */
const most = 300;

type Part = PressurePart['of'];

/** Where the force of a trial acts, from the recording as it was received. Plates that do not tell are left out. */
export async function trialPressure(lab: OpenLab, id: string): Promise<TrialPressure> {
  const trial = await lab.store.trials.get(id);
  if (trial === undefined) throw problems.notFound('trial');
  const result = (await lab.store.results.current(id))?.document as unknown as TrialResult | undefined;
  if (trial.recording === undefined || result === undefined) return { axes: 'plate', names: ['x', 'y'], plates: [] };
  const recording = await readRecording(lab, trial.recording, trial.recordingLabel ?? '', trial.reading ?? {});
  const { plates, floor, combined } = pressureOf(recording);
  const spans = partsOf(result);
  const onFloor = floor !== undefined && combined !== undefined;
  return {
    axes: onFloor ? 'laboratory' : 'plate',
    names: onFloor ? [...floor.along] : ['x', 'y'],
    plates: plates.flatMap((plate) => {
      const place = onFloor ? plate.floor : plate;
      const parts = place === undefined ? [] : drawn(place, spans);
      if (parts.length === 0) return [];
      const outline = place?.outline?.map(([x, y]): [number, number] => [x, y]);
      const mirrored = !onFloor && plate.zDown;
      return [{ name: plate.name, ...(outline === undefined ? {} : { outline }), parts, mirrored }];
    }),
    ...(combined === undefined || plates.length < 2 ? {} : { combined: drawn(combined, spans) }),
  };
}

/** The stand-still before an effort, and the effort itself; a jump up to its take-off. */
function partsOf({ events, jump, onset }: TrialResult): ReadonlyMap<Part, SampleSpan> {
  const parts = new Map<Part, SampleSpan>();
  const still = events === undefined ? jump?.weighing : events.baseline;
  if (still?.ok) parts.set('still', still.value);
  const start = onset.ok ? onset.value.index : (events?.halfRise ?? jump?.firstTouchdown);
  const end = events?.end ?? jump?.takeOff;
  if (start !== undefined && end !== undefined && end > start) parts.set('effort', { start, end });
  return parts;
}

function drawn(path: PressurePath, spans: ReadonlyMap<Part, SampleSpan>): PressurePart[] {
  return [...spans].flatMap(([of, span]) => {
    const found = pathFigures(path, span);
    if (found === undefined) return [];
    const step = Math.max(1, Math.ceil((span.end - span.start) / most));
    const points: PressurePart['points'] = [];
    for (let n = span.start; n < span.end; n += step) {
      const [x, y] = [path.x[n] as number, path.y[n] as number];
      points.push(Number.isFinite(x) && Number.isFinite(y) ? [x, y] : null);
    }
    const { samples, mean, range } = found;
    return [{ of, points, figures: { samples, mean: [...mean], range: [...range] } }];
  });
}
