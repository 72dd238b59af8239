import type { ChangeFacts, ChangeWord, MethodFacts, MetricFacts } from '../input/common.ts';
import type { Language } from '../model/document.ts';
import type { Numbers } from '../text/numbers.ts';
import type { Words } from '../words/index.ts';
import { onsetTitle } from '../words/trade/onset.ts';

/** Forces are stronger or weaker; other values better or worse, or only higher or lower. */
export function wordText(word: ChangeWord, better: MetricFacts['better'], scale: 'log' | 'unit', { common }: Words) {
  if (better === 'neither') return common.neither[word] ?? common.word[word];
  return scale === 'unit' ? (common.better[word] ?? common.word[word]) : common.word[word];
}

/** A mark that says the word again by its form, so that no colour is needed. */
export const wordMark: Readonly<Record<ChangeWord, string>> = {
  stronger: '\u25b2',
  'probably stronger': '\u25b3',
  weaker: '\u25bc',
  'probably weaker': '\u25bd',
  unchanged: '=',
  "inside the test's noise": '\u2248',
  'cannot tell yet': '?',
};

export const isSure = (word: ChangeWord): boolean => word === 'stronger' || word === 'weaker';

/** An error or a worthwhile change on the scale it is judged on: per cent for logs. */
export const scaleText = (value: number, scale: 'log' | 'unit', unit: string, numbers: Numbers): string =>
  scale === 'log' ? numbers.percent(100 * Math.expm1(value / 100)) : numbers.quantity(value, unit);

/** A difference in the unit, and in per cent where errors are. */
export const differenceText = ({ difference, percent }: ChangeFacts, unit: string, numbers: Numbers): string =>
  percent === undefined
    ? numbers.difference(difference, unit)
    : `${numbers.difference(difference, unit)} (${numbers.signed(percent, 1)}\u00a0%)`;

/** Filter, onset and rule of a method in words. */
export const methodWords = ({ document }: MethodFacts, { common }: Words, numbers: Numbers, language: Language) => ({
  filter: document.filter === undefined ? common.noFilter : common.filter(numbers.fixed(document.filter.cutoff, 0)),
  onset: onsetTitle(document.onset.rule, language),
  rule: common.rule[document.set.summary],
});

/** A hash short enough to read aloud; the whole one stands in the reliability report and in the result itself. */
export const shortHash = (sha256: string): string => sha256.slice(0, 12);
