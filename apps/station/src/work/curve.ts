import { type CurveSeries, encodeCurve } from '@sthene/contract';
import type { OpenLab } from '../labs/open-lab.ts';
import { problems } from '../server/problem-error.ts';
import { forcesOfTrial } from './forces-of-trial.ts';

/** The exact forces of a trial's recording as one binary answer. */
export async function curveOf(lab: OpenLab, id: string): Promise<Buffer> {
  const trial = await lab.store.trials.get(id);
  const session = trial && (await lab.store.sessions.get(trial.session));
  if (trial === undefined || session === undefined) throw problems.notFound('trial');
  const { forces, notices } = await forcesOfTrial(lab, trial, session);
  const series: CurveSeries[] = [{ name: 'total', of: 'total' }];
  const values = [forces.total];
  const add = (name: string, of: CurveSeries['of'], force: Float64Array | undefined) => {
    if (force === undefined) return;
    series.push({ name, of });
    values.push(force);
  };
  add('left', 'left', forces.left);
  add('right', 'right', forces.right);
  // plates that are a side of their own are there already
  if (forces.plates.length > 2) for (const plate of forces.plates) add(plate.name, 'plate', plate.force);
  const pairs = (spans: readonly { start: number; end: number }[]) =>
    spans.map((span) => [span.start, span.end] as const);
  const bytes = encodeCurve(
    {
      sampleRate: forces.sampleRate,
      samples: forces.sampleCount,
      unit: forces.unit,
      notices: notices.map(({ code, message }) => ({ code, message })),
      series,
      gaps: { filled: pairs(forces.gaps.filled), open: pairs(forces.gaps.open) },
    },
    values,
  );
  return Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}
