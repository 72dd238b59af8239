import { ProblemError } from '../../server/problem-error.ts';
import type { LiveLab } from '../live-lab.ts';
import { virtualPart } from '../rig/rig-view.ts';
import { showCheckSettings } from './settings.ts';
import { checkStanding } from './standing.ts';

/**
 * What the lab has decided for a day whose rigs are overdue for a check or failed the newest: it is refused, told, or nothing. Virtual plates that were
 * never checked are not asked: they are only played.
 */
export async function checksBeforeDay(live: LiveLab, rigs: readonly string[]): Promise<void> {
  const { lab } = live;
  const { overdue } = await showCheckSettings(lab);
  if (overdue === 'allow') return;
  for (const id of rigs) {
    const rig = await lab.store.rigs.get(id);
    if (rig === undefined) continue;
    const { due, last, inForce } = await checkStanding(lab, id, live.ports.clock.wall());
    const sources = await Promise.all(rig.sources.map((one) => lab.store.sources.get(one)));
    const played = virtualPart(sources.flatMap((one) => one ?? [])).virtual !== undefined;
    if (played && last === undefined) continue;
    // Whoever adopted the correction of a check that failed has acted on it.
    const failed = last?.result.verdict === 'fails' && inForce?.check !== last.id;
    if (due.standing !== 'overdue' && due.standing !== 'never' && !failed) continue;
    const words = failed
      ? `The rig "${rig.name}" did not pass its newest check with known masses.`
      : due.standing === 'never'
        ? `The rig "${rig.name}" has no check with known masses that it came through.`
        : `The check of the rig "${rig.name}" has been due for ${-(due.days ?? 0)} days.`;
    const next = 'Check its plates with known masses on the Rig page.';
    if (overdue === 'refuse')
      throw new ProblemError(
        409,
        'rig-check-overdue',
        `${words} This lab does not test on such a rig.`,
        `${next} Whoever may change the settings of the checks can also allow it.`,
      );
    live.raise({ severity: 'warning', code: 'rig-check-overdue', words, next, rig: id });
  }
}
