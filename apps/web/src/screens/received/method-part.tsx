import { protocolRegistry } from '@sthene/core';
import { useId } from 'react';
import { receivedWords } from '../../words/received.ts';
import { testTitle } from '../trial/test-title.ts';
import { ChoiceField } from './choice-field.tsx';
import type { Results } from './use-results.ts';

/** By which method the values were made, in somebody's own words or openly not known, and which test it was. */
export function MethodPart({ results }: { results: Results }) {
  const t = receivedWords.screen.method;
  const { answers, setAnswers, needsLabel, needsTest } = results;
  const id = useId();
  return (
    <section className="results-part" aria-labelledby={id}>
      <h2 id={id}>{t.title}</h2>
      {needsTest ? (
        <div className="results-fields">
          <ChoiceField label={t.test} value={answers.test} onChange={(test) => setAnswers({ test })}>
            <option value="">{t.choose}</option>
            {protocolRegistry.all.map((one) => (
              <option key={one.id} value={one.id}>
                {testTitle(one.id)}
              </option>
            ))}
          </ChoiceField>
        </div>
      ) : (
        <p className="soft">{t.testInColumn}</p>
      )}
      {needsLabel ? (
        <fieldset className="results-method">
          <legend>{t.label}</legend>
          <p className="small soft">{t.text}</p>
          <label className="results-radio">
            <input
              type="radio"
              name={`${id}known`}
              checked={answers.known === true}
              onChange={() => setAnswers({ known: true })}
            />
            {t.known}
          </label>
          {answers.known === true && (
            <input
              aria-label={t.label}
              className="results-label"
              value={answers.label}
              maxLength={200}
              placeholder={t.hint}
              onChange={(event) => setAnswers({ label: event.target.value })}
            />
          )}
          <label className="results-radio">
            <input
              type="radio"
              name={`${id}known`}
              checked={answers.known === false}
              onChange={() => setAnswers({ known: false })}
            />
            {t.unknown}
            <span className="small soft"> {t.unknownText}</span>
          </label>
        </fieldset>
      ) : (
        <p className="soft">{t.inColumn}</p>
      )}
    </section>
  );
}
