import type { AthleteChange, AthleteView } from '@sthene/contract';
import type { ReactNode } from 'react';
import { numberText } from '../../number/format.ts';
import { athleteWords } from '../../words/athletes.ts';
import { differenceText, percentText, scaleText, shareText, valueText } from '../athletes/values.ts';

/** The parts behind the word, one click away. */
export function ChangeParts({ view, change }: { view: AthleteView; change: AthleteChange }) {
  const t = athleteWords.part;
  const { noise, metric } = view;
  const { unit } = metric;
  const widest = change.intervals.at(-1);
  const up = metric.better === 'lower' ? change.less : change.more;
  const down = metric.better === 'lower' ? change.more : change.less;
  const inBoth = (difference: number) =>
    change.percent === undefined
      ? valueText(difference, unit)
      : `${valueText(difference, unit)} (${numberText((100 * difference) / change.value, 1)}\u00a0%)`;
  return (
    <details className="follow-parts">
      <summary>{athleteWords.parts}</summary>
      <dl>
        <Part name={t.difference}>
          {differenceText(change.difference, unit)}
          {change.percent !== undefined && ` (${percentText(change.percent)})`}
        </Part>
        {widest && (
          <Part name={t.interval}>
            {differenceText(widest.low, unit)} to {differenceText(widest.high, unit)}
          </Part>
        )}
        <Part name={t.probabilities} note={t.flat}>
          {shareText(up)}, {shareText(change.within)}, {shareText(down)}
        </Part>
        {noise.used && (
          <Part name={t.used} note={t.usedOf(numberText(noise.used.df, 0))}>
            {scaleText(noise.used.value, view)}
          </Part>
        )}
        {noise.squad && (
          <Part
            name={t.squad}
            note={`${t.squadOf(
              noise.squad.people,
              noise.squad.sessions,
              `${scaleText(noise.squad.interval.low, view)} to ${scaleText(noise.squad.interval.high, view)}`,
            )}${noise.squad.people < 10 ? ` ${t.fewPeople(noise.squad.people)}` : ''}`}
          >
            {scaleText(noise.squad.error.value, view)}
          </Part>
        )}
        {noise.own && (
          <Part name={t.own} note={t.ownOf(numberText(noise.own.df, 0))}>
            {scaleText(noise.own.value, view)}
          </Part>
        )}
        {change.rigs && (
          <Part name={t.rigs} note={change.rigs.standard === undefined ? t.rigsNotKnown : t.rigsOf}>
            {change.rigs.standard === undefined ? '' : inBoth(change.rigs.standard)}
          </Part>
        )}
        <Part name={t.worthwhile} note={noise.worthwhile === undefined ? t.worthwhileNone : t.worthwhileOf}>
          {noise.worthwhile === undefined ? '' : scaleText(noise.worthwhile, view)}
        </Part>
        <Part name={t.detectable}>{inBoth(change.detectable)}</Part>
        <Part name={t.confirmable} note={change.halve === undefined ? t.noHalve : t.halve(change.halve)}>
          {inBoth(change.confirmable)}
        </Part>
        <Part name={t.chance}>{numberText(100 * change.byChance, 1)}</Part>
      </dl>
    </details>
  );
}

function Part({ name, note, children }: { name: string; note?: string; children: ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>
        <span className="number">{children}</span>
        {note !== undefined && <span className="small soft"> {note}</span>}
      </dd>
    </div>
  );
}
