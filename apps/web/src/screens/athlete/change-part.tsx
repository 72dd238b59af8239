import type { AthleteChange, AthleteView } from '@sthene/contract';
import { whenText } from '../../number/when.ts';
import { athleteWords as t } from '../../words/athletes.ts';
import { wordText } from '../athletes/change-word.ts';
import { differenceText, percentText, valueText } from '../athletes/values.ts';
import { ChangeParts } from './change-parts.tsx';

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
      <p className="small soft">{bestText(view, newest)}</p>
      <ChangeParts view={view} change={change} />
    </section>
  );
}

/** The record beside the change; it is no reference. */
function bestText(view: AthleteView, newest: AthleteView['sessions'][number]): string {
  const best = view.sessions.find(({ id }) => id === view.best);
  if (best?.value === undefined || newest.value === undefined) return '';
  if (best.id === newest.id) return t.isBest;
  const difference =
    view.scale === 'log'
      ? percentText(100 * (newest.value / best.value - 1))
      : differenceText(newest.value - best.value, view.metric.unit);
  return t.bestIs(valueText(best.value, view.metric.unit), whenText(best.at, false), difference);
}
