import { checkRegistry } from '../../checks/index.ts';
import { onsetRegistry } from '../../onset/index.ts';
import type { Method } from '../method.ts';
import { summaryWords } from './fields.ts';

/** What a method does, in plain sentences in the order in which it does it. */
export function methodSentences({ filter, onset, window, checks, set }: Method): string[] {
  const off = checkRegistry.all.filter(({ id }) => checks[id] === undefined);
  const changed = checkRegistry.all.filter(({ id, defaultLimits }) => {
    const limits = checks[id]?.limits;
    return limits !== undefined && Object.entries(defaultLimits).some(([limit, value]) => limits[limit] !== value);
  });
  const share =
    set.agreementShare === undefined ? '' : `, or by ${Number((100 * set.agreementShare).toFixed(6))} % of the best`;
  return [
    filter === undefined
      ? 'The force is taken as it came, without a filter.'
      : `The force first goes through a zero-lag Butterworth low-pass of ${filter.cutoff} Hz.`,
    `The baseline is a quiet window of ${window.baseline} s, at most ${window.search} s before the rise and ${window.clearance} s clear of it.`,
    `Onset by the rule "${onsetRegistry.get(onset.rule)?.title ?? onset.rule}": ${onsetRegistry.get(onset.rule)?.definition ?? ''}`,
    `${Object.keys(checks).length} checks look at each trial${changed.length === 0 ? '' : `; other limits than usual: ${listed(changed)}`}${off.length === 0 ? '' : `; off: ${listed(off)}`}.`,
    `Another pull is asked for while the two highest peak forces differ by more than ${set.agreement} N${share}; a set closes after ${set.closesAfter} maximal pulls.`,
    `The value of a session is the ${summaryWords(set.summary).replace(/^the /, '')}.`,
  ];
}

const listed = (checks: readonly { readonly title: string }[]): string => checks.map(({ title }) => title).join(', ');
