import type { AthleteChange, AthleteView } from '@sthene/contract';
import { whenText } from '../../number/when.ts';
import { athleteWords as t } from '../../words/athletes.ts';
import { ChangeParts } from './change-parts.tsx';
import { wordText } from './change-word.ts';
import { differenceText, percentText, valueText } from './values.ts';

/** What may be said of the newest session: the word, the sentence, and everything it rests on. */
export function ChangePart({ view, change }: { view: AthleteView; change: AthleteChange | undefined }) {
  const newest = view.sessions.findLast(({ value }) => value !== undefined);
  if (newest?.value === undefined) return null;
  if (change === undefined)
    return (
      <section className="follow-change" aria-labelledby="follow-change">
        <h2 id="follow-change">{t.change}</h2>
        <p className="follow-word">{valueText(newest.value, view.metric.unit)}</p>
        <p>{view.reason === 'too-few-values' ? t.noWord['too-few-values'] : t.noWord.other}</p>
      </section>
    );
  const { unit, title } = view.metric;
  const difference =
    change.percent === undefined
      ? differenceText(change.difference, unit)
      : `${differenceText(change.difference, unit)} (${percentText(change.percent)})`;
  const behind = view.sessions.filter(({ id }) => change.sessions.includes(id));
  const dated = behind.length === 1 && behind[0] ? ` ${t.of(whenText(behind[0].at, false))}` : '';
  return (
    <section className="follow-change" aria-labelledby="follow-change" data-word={change.word}>
      <h2 id="follow-change">
        {t.change}, {whenText(newest.at, false)}
      </h2>
      {change.unlike.length > 0 && <p className="follow-unlike">{t.unlike(change.unlike)}</p>}
      <p className="follow-word">{wordText(change.word, view)}</p>
      <p>{t.sentence(title, valueText(newest.value, unit), difference, t.references[change.reference] + dated)}</p>
      <p className="small soft">
        {t.why[change.alike]}
        {change.word !== change.alike && ` ${t.byStep(wordText(change.alike, view).toLowerCase())}`}
      </p>
      <ChangeParts view={view} change={change} />
    </section>
  );
}
