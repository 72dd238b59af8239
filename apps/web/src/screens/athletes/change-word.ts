import type { AthleteView, ChangeWordCode } from '@sthene/contract';
import { athleteWords as t } from '../../words/athletes.ts';

/** Forces are stronger or weaker; other values better or worse, or only higher or lower. */
export function wordText(
  word: ChangeWordCode,
  { metric, scale }: Pick<AthleteView, 'scale'> & { readonly metric: Pick<AthleteView['metric'], 'better'> },
): string {
  if (metric.better === 'neither') return t.neither[word] ?? t.word[word];
  return scale === 'unit' ? (t.better[word] ?? t.word[word]) : t.word[word];
}
