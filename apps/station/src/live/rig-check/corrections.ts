import type { RigCorrectionView, rigCorrectionDraft } from '@sthene/contract';
import type { z } from 'zod';
import { ProblemError, problems } from '../../server/problem-error.ts';
import type { LiveLab } from '../live-lab.ts';
import { closeRig, openRig } from '../rig/rig-work.ts';
import { correctionView } from './check-views.ts';
import { readDraft } from './draft-file.ts';
import { correctionInForce } from './standing.ts';

/**
 * Adopts the correction of a check for some of its plates, or takes corrections back. Raw samples stay as they are; what is measured
 * from now on has it. An open rig is closed and opened again, so that no stream changes in the middle.
 */
export async function correctRig(
  live: LiveLab,
  id: string,
  { check: from, plates, reason, by }: z.infer<typeof rigCorrectionDraft>,
): Promise<RigCorrectionView> {
  const { lab } = live;
  if ((await lab.store.rigs.get(id)) === undefined) throw problems.notFound('rig');
  if (live.turns.has(id)) throw new ProblemError(409, 'not-now', 'Somebody is on this rig.', 'End the turn first.');
  if (live.loaded?.day.rigs.includes(id) === true)
    throw new ProblemError(
      409,
      'day-is-open',
      'This rig is on the open day, whose efforts would then have been measured in two ways.',
      'Close the day first.',
    );
  if ((await readDraft(lab, id)) !== undefined)
    throw new ProblemError(
      409,
      'check-under-way',
      'A check is being made on this rig, whose readings would then have been taken in two ways.',
      'Keep it or throw it away first.',
    );
  const kept = await lab.store.rigChecks.correct(
    {
      rig: id,
      ...(from === undefined ? {} : { check: from }),
      plates: await platesFor(live, id, from, plates),
      reason,
    },
    await lab.actor(by),
  );
  const open = live.rigs.has(id);
  if (open) {
    await closeRig(live, id);
    await openRig(live, id);
  }
  await live.loadCheck(id);
  return correctionView(lab, kept);
}

/** The plates of the check that were asked for; the others keep what is in force for them. */
async function platesFor({ lab }: LiveLab, rig: string, from: string | undefined, plates: readonly string[]) {
  if (from === undefined) {
    if (plates.length > 0) throw problems.invalid('A correction comes from a check.');
    return [];
  }
  const check = await lab.store.rigChecks.get(from);
  if (check === undefined || check.rig !== rig) throw problems.notFound('check of this rig');
  if (check.result.verdict === 'incomplete')
    throw new ProblemError(
      409,
      'check-incomplete',
      'This check says too little for a correction.',
      'Check again with masses that are known well enough, and at least two loads.',
    );
  const found = check.result.correction.filter(({ plate }) => plates.includes(plate));
  if (found.length < plates.length || found.length === 0) throw problems.notFound('plate of this check');
  const before = (await correctionInForce(lab, rig))?.plates ?? [];
  return [...before.filter(({ plate }) => !plates.includes(plate)), ...found];
}
