import type { ReceivedOutcome } from '@sthene/contract';
import { metricFacts } from '@sthene/core';
import { useId } from 'react';
import { quantityText } from '../../number/format.ts';
import { receivedWords } from '../../words/received.ts';
import type { Results } from './use-results.ts';

const shown = 50;

/** Counts, cells that were refused with their place and next step, and values that are there already. */
export function OutcomeLists({ results, outcome }: { results: Results; outcome: ReceivedOutcome }) {
  const t = receivedWords.screen.check;
  const { preview, answers, setAnswers } = results;
  const headings = preview.data?.headings ?? [];
  const facts = [
    ...(outcome.missing > 0 ? [t.missing(outcome.missing)] : []),
    ...(outcome.notTaken > 0 ? [t.notTaken(outcome.notTaken)] : []),
    ...(outcome.ownDays > 0 ? [t.ownDays(outcome.ownDays)] : []),
    ...outcome.leftOut.map(({ name, values }) => t.leftOut(name, values)),
  ];
  const id = useId();
  const columnOf = (column: number | undefined) =>
    column === undefined ? undefined : headings[column - 1] || `column ${column}`;
  return (
    <>
      <p className="results-counts" role="status">
        {t.counts(outcome.values, outcome.sessions)}
      </p>
      {facts.length > 0 && (
        <ul className="results-facts small">
          {facts.map((fact) => (
            <li key={fact}>{fact}</li>
          ))}
        </ul>
      )}
      {outcome.refusedCount > 0 && (
        <details className="results-more" open={outcome.refusedCount <= 10}>
          <summary>{t.refused(outcome.refusedCount)}</summary>
          <ul className="results-refused">
            {outcome.refused.slice(0, shown).map((one) => (
              <li key={`${one.row} ${one.column ?? ''} ${one.code}`}>
                <b>{t.place(one.row, columnOf(one.column))}</b>{' '}
                {one.found !== '' && <q className="number">{one.found}</q>}
                <span className="small">
                  {one.means} {one.next}
                </span>
                <span className="small soft number">{one.code}</span>
              </li>
            ))}
          </ul>
          {outcome.refusedCount > shown && <p className="small soft">{t.more(outcome.refusedCount - shown)}</p>}
        </details>
      )}
      {outcome.duplicateCount > 0 && (
        <fieldset className="results-duplicates">
          <legend>{t.duplicates(outcome.duplicateCount)}</legend>
          {(['skip', 'keep'] as const).map((one) => (
            <label key={one} className="results-radio">
              <input
                type="radio"
                name={`${id}twice`}
                checked={answers.onDuplicate === one}
                onChange={() => setAnswers({ onDuplicate: one })}
              />
              {t[one]}
            </label>
          ))}
          <ul className="results-refused">
            {outcome.duplicates.slice(0, 8).map((one) => (
              <li key={`${one.row} ${one.metric}`}>
                <b>{t.place(one.row, undefined)}</b> {one.person}, {one.day},{' '}
                {metricFacts.get(one.metric)?.title ?? one.metric}{' '}
                <span className="number">{quantityText(one.value, one.unit, { sampleRate: 1000, noise: 1 })}</span>
                <span className="small soft">{t.where[one.where]}</span>
              </li>
            ))}
          </ul>
          {outcome.duplicateCount > 8 && <p className="small soft">{t.more(outcome.duplicateCount - 8)}</p>}
        </fieldset>
      )}
    </>
  );
}
