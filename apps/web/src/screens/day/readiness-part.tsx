import type { DayEntry, Readiness } from '@sthene/contract';
import { protocolRegistry } from '@sthene/core';
import { useId, useState } from 'react';
import { clockText } from '../../number/duration.ts';
import { dayWords } from '../../words/day.ts';

const questions = ['pain', 'injury', 'screened', 'consent', 'warmedUp'] as const;
type Question = (typeof questions)[number];

const allClear = { pain: false, injury: false, screened: true, consent: true, warmedUp: true } as const;

interface ReadinessProps {
  readonly entry: DayEntry;
  /** Without a heading, where the title of a dialog says it already. */
  readonly plain?: boolean;
  onKeep(readiness: Readiness): void;
}

/** The questions before the first effort. No answer is preset; what follows from them is decided by the station. */
export function ReadinessPart({ entry, plain = false, onKeep }: ReadinessProps) {
  const t = dayWords.ready;
  const known = entry.readiness;
  const [answers, setAnswers] = useState<Partial<Record<Question, boolean>>>(known ?? {});
  const [note, setNote] = useState(known?.note ?? '');
  const [tried, setTried] = useState(false);
  const id = useId();
  const complete = questions.every((one) => answers[one] !== undefined);
  return (
    <section className="detail">
      {!plain && <h3>{t.title}</h3>}
      <p className="small soft">{known ? dayWords.order.answered(known.by, clockText(known.at)) : t.help}</p>
      {known === undefined && (
        <div className="all-clear">
          <button type="button" className="button main" onClick={() => onKeep({ ...allClear, note: note.trim() })}>
            {t.allClear}
          </button>
          <p className="small soft">{t.allClearMeans}</p>
        </div>
      )}
      <form
        onSubmit={(event) => {
          event.preventDefault();
          setTried(true);
          const { pain, injury, screened, consent, warmedUp } = answers;
          if (complete) onKeep({ pain, injury, screened, consent, warmedUp, note } as Readiness);
        }}
      >
        {questions.map((one) => (
          <fieldset key={one} className="question">
            <legend>{t.questions[one]}</legend>
            {[true, false].map((answer) => (
              <label key={String(answer)} className="check-line">
                <input
                  type="radio"
                  name={`${id}${one}`}
                  checked={answers[one] === answer}
                  onChange={() => setAnswers({ ...answers, [one]: answer })}
                />
                {answer ? dayWords.yes : dayWords.no}
              </label>
            ))}
          </fieldset>
        ))}
        {(answers.pain === true || answers.injury === true) && (
          <p className="band" role="status">
            {t.stop}
          </p>
        )}
        <label className="field">
          <span className="label">{t.note}</span>
          <input value={note} maxLength={2000} onChange={(event) => setNote(event.target.value)} />
        </label>
        {tried && !complete && (
          <p className="field-error small" role="alert">
            {t.needsAll}
          </p>
        )}
        <div className="acts">
          <button type="submit" className={known === undefined ? 'button' : 'button main'}>
            {t.save}
          </button>
        </div>
      </form>
      <details className="small">
        <summary>{t.cautions}</summary>
        <ul className="dots">
          {(protocolRegistry.get(entry.test)?.cautions ?? []).map((one) => (
            <li key={one}>{one}</li>
          ))}
        </ul>
      </details>
    </section>
  );
}
