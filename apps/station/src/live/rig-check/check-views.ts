import type { RigChecksView, RigCheckView, RigCorrectionView } from '@sthene/contract';
import { gainTrend, type UtcInstant } from '@sthene/core';
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
  return {
    due,
    ...(last === undefined ? {} : { last: last.result.verdict }),
    checks: await Promise.all(checks.toReversed().map((one) => checkView(lab, one))),
    corrections: await Promise.all(corrections.toReversed().map((one) => correctionView(lab, one))),
    trend: trendsOf(checks, now),
    ...(draft === undefined ? {} : { draft: draftView(draft) }),
  };
}

/** The gain each plate has by itself: what a correction in force took off is put back. */
function trendsOf(checks: readonly RigCheck[], now: UtcInstant): RigChecksView['trend'] {
  const plates = new Set(checks.flatMap(({ document }) => document.plates));
  return [...plates].flatMap((plate) => {
    const points = checks.flatMap(({ at, result }) => {
      const gain = result.correction.find((one) => one.plate === plate)?.gain;
      return gain === undefined || result.verdict === 'incomplete' ? [] : [{ at, gain: 100 * (gain - 1) }];
    });
    const found = gainTrend(points, now);
    return found.ok ? [{ plate, ...found.value }] : [];
  });
}
