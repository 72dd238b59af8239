import { ProblemError } from '../../server/problem-error.ts';
import type { LiveLab } from '../live-lab.ts';
import { virtualPart } from '../rig/rig-view.ts';
import { readDraft } from './draft-file.ts';
import { showCheckSettings } from './settings.ts';
import { checkStanding, isFailed } from './standing.ts';

type Warning = Parameters<LiveLab['raise']>[0];

/**
 * What the lab has decided for a day whose rigs are overdue for a check or failed the newest: it is refused, told, or nothing. Virtual plates that were
 * never checked are not asked: they are only played. A check under way is kept or thrown away first.
 *
 * @returns what to tell once the rigs are open
 */
export async function checksBeforeDay(live: LiveLab, rigs: readonly string[]): Promise<Warning[]> {
  const { lab } = live;
  const { overdue } = await showCheckSettings(lab);
  const warnings: Warning[] = [];
  for (const id of rigs) {
    const rig = await lab.store.rigs.get(id);
    if (rig === undefined) continue;
    if ((await readDraft(lab, id)) !== undefined)
      throw new ProblemError(
        409,
        'check-under-way',
        `A check is being made on the rig "${rig.name}".`,
        'Keep it or throw it away first.',
      );
    if (overdue === 'allow') continue;
    const { due, ...newest } = await checkStanding(lab, id, live.ports.clock.wall());
    const sources = await Promise.all(rig.sources.map((one) => lab.store.sources.get(one)));
    const played = virtualPart(sources.flatMap((one) => one ?? [])).virtual !== undefined;
    if (played && newest.last === undefined) continue;
    const failed = isFailed(newest);
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
    warnings.push({ severity: 'warning', code: 'rig-check-overdue', words, next, rig: id });
  }
  return warnings;
}
