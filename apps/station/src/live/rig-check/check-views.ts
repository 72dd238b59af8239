import type { RigChecksView, RigCheckView, RigCorrectionView } from '@sthene/contract';
import { checkHistory, gainTrend, type PlateHistory, type UtcInstant } from '@sthene/core';
import type { RigCheck, RigCorrection } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';
import { problems } from '../../server/problem-error.ts';
import type { LiveLab } from '../live-lab.ts';
import { readDraft } from './draft-file.ts';
import { draftView } from './draft-view.ts';
import { checkStanding } from './standing.ts';

/** A kept check with the name behind its signature. */
export const checkView = async (
  lab: OpenLab,
  { role: _, station: __, by, ...check }: RigCheck,
): Promise<RigCheckView> => ({ ...check, by: await lab.nameOf(by) }) as unknown as RigCheckView;

export const correctionView = async (
  lab: OpenLab,
  { role: _, station: __, by, ...correction }: RigCorrection,
): Promise<RigCorrectionView> => ({ ...correction, by: await lab.nameOf(by) }) as unknown as RigCorrectionView;

/** Everything known of the checks of a rig. */
export async function listChecks(live: LiveLab, id: string): Promise<RigChecksView> {
  const { lab } = live;
  if ((await lab.store.rigs.get(id)) === undefined) throw problems.notFound('rig');
  const now = live.ports.clock.wall();
  const checks = await lab.store.rigChecks.ofRig(id);
  const corrections = await lab.store.rigChecks.corrections(id);
  const { due, last } = await checkStanding(lab, id, now);
  const draft = await readDraft(lab, id);
  const history = checkHistory(checks);
  return {
    due,
    ...(last === undefined ? {} : { last: last.result.verdict }),
    checks: await Promise.all(checks.toReversed().map((one) => checkView(lab, one))),
    corrections: await Promise.all(corrections.toReversed().map((one) => correctionView(lab, one))),
    history: history as unknown as RigChecksView['history'],
    trend: trendsOf(history, now),
    ...(draft === undefined ? {} : { draft: draftView(draft) }),
  };
}

/** How the gain of each plate wanders. */
const trendsOf = (history: readonly PlateHistory[], now: UtcInstant): RigChecksView['trend'] =>
  history.flatMap(({ plate, points }) => {
    const known = points.flatMap(({ at, gain }) => (gain === undefined ? [] : [{ at, gain }]));
    const found = gainTrend(known, now);
    return found.ok ? [{ plate, ...found.value }] : [];
  });
