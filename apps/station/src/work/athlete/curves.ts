import type { CurvesView, SessionCurve } from '@sthene/contract';
import { meanOf, sdOf } from '@sthene/core';
import type { Session } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { problems } from '../../server/problem-error.ts';
import { forcesOfTrial } from '../forces-of-trial.ts';

/** Seconds about the onset, and steps a second: what a screen can show. */
const [from, to, rate] = [-0.5, 3, 200];
const most = 6;
const time = Array.from({ length: (to - from) * rate + 1 }, (_, i) => from + i / rate);

interface Aligned {
  readonly unit: string;
  /** Force at each time; undefined beyond the recording. */
  readonly force: readonly (number | undefined)[];
}

/** Mean curves of sessions of one athlete: maximal efforts that count, each aligned at its onset. */
export async function curvesView(lab: OpenLab, person: string, ids: readonly string[]): Promise<CurvesView> {
  if (ids.length > most) throw problems.invalid(`At most ${most} sessions are laid over each other.`);
  const found = await Promise.all(
    ids.map(async (id) => {
      const session = await lab.store.sessions.get(id);
      if (session === undefined || session.person !== person) throw problems.notFound('session');
      return { session, efforts: await effortsOf(lab, session) };
    }),
  );
  const unit = found.flatMap(({ efforts }) => efforts.aligned)[0]?.unit ?? 'N';
  return {
    unit,
    time,
    curves: found.map(({ session, efforts }) => {
      const alike = efforts.aligned.filter((one) => one.unit === unit);
      const left = efforts.left + efforts.aligned.length - alike.length;
      return { session: session.id, at: session.startedAt, n: alike.length, left, ...meanCurve(alike) };
    }),
  };
}

async function effortsOf(lab: OpenLab, session: Session): Promise<{ aligned: Aligned[]; left: number }> {
  const aligned: Aligned[] = [];
  let left = 0;
  for (const { trial, standing } of await lab.store.trials.standingIn(session)) {
    if (trial.effort !== 'maximal' || standing.standing !== 'counts' || standing.result === undefined) continue;
    const onset = (await lab.store.results.get(standing.result))?.document.onset;
    if (onset === undefined || !onset.ok) {
      left += 1;
      continue;
    }
    const { forces } = await forcesOfTrial(lab, trial, session);
    aligned.push({ unit: forces.unit, force: sampled(forces.total, forces.sampleRate, onset.value.index) });
  }
  return { aligned, left };
}

/** A force at the times of the picture, between two samples by a straight line. */
function sampled(total: Float64Array, sampleRate: number, onset: number): (number | undefined)[] {
  return time.map((t) => {
    const at = onset + t * sampleRate;
    const i = Math.floor(at);
    const [a, b] = [total[i], total[i + 1] ?? total[i]];
    if (i < 0 || a === undefined || b === undefined) return undefined;
    const value = a + (at - i) * (b - a);
    return Number.isFinite(value) ? value : undefined;
  });
}

/** Up to the first time that an effort no longer covers: a mean of fewer would jump. */
function meanCurve(efforts: readonly Aligned[]): Pick<SessionCurve, 'start' | 'mean' | 'sd'> {
  const mean: number[] = [];
  const sd: number[] = [];
  const begin = time.findIndex((_, i) => efforts.every(({ force }) => force[i] !== undefined));
  if (efforts.length === 0 || begin < 0) return { start: 0, mean };
  for (let i = begin; i < time.length; i++) {
    const values = efforts.flatMap(({ force }) => force[i] ?? []);
    if (values.length < efforts.length) break;
    mean.push(meanOf(values));
    if (values.length > 1) sd.push(sdOf(values));
  }
  return { start: begin, mean, ...(efforts.length > 1 ? { sd } : {}) };
}
