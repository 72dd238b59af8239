import type { RigView } from '@sthene/contract';
import { whenText } from '../../number/when.ts';
import { startWords } from '../../words/start.ts';
import type { Standing } from '../rig/ready-check.ts';

/** A rig whose plates want a check, and why. */
export interface CheckDueLine {
  readonly id: string;
  readonly letter: string;
  readonly name: string;
  readonly standing: Standing;
  readonly why: string;
}

/**
 * Rigs whose plates failed their newest check, are overdue for one, or soon due; the worst first. Virtual plates that were never checked
 * are left alone, as they are when a day is opened.
 */
export function checksDue(rigs: readonly RigView[]): CheckDueLine[] {
  const t = startWords.plates;
  const lines = rigs.flatMap(({ id, letter, name, check, virtual }): CheckDueLine[] => {
    if (check === undefined) return [];
    const rig = { id, letter, name };
    const due = check.due === undefined ? '' : whenText(check.due, false);
    if (check.failed) return [{ ...rig, standing: 'bad', why: t.failed(check.at ? whenText(check.at, false) : '') }];
    if (check.standing === 'overdue') return [{ ...rig, standing: 'look', why: t.overdue(due) }];
    if (check.standing === 'never' && (virtual === undefined || check.at !== undefined))
      return [{ ...rig, standing: 'look', why: check.at === undefined ? t.never : t.noneCounts }];
    return check.standing === 'soon' ? [{ ...rig, standing: 'open', why: t.soon(due) }] : [];
  });
  const rank: readonly Standing[] = ['bad', 'look', 'open'];
  return lines.sort((a, b) => rank.indexOf(a.standing) - rank.indexOf(b.standing));
}
