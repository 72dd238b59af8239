import { useEffect, useRef } from 'react';
import { importWords as t } from '../../words/importing.ts';
import { type StepNumber, standingOf, usable, working } from './state.ts';
import type { Import } from './use-import.ts';

/** The four steps: where one is, and the way back to each that was passed. */
export function Steps({ imported }: { imported: Import }) {
  const { step, items } = imported.state;
  const ready =
    working(items).length === 0 &&
    usable(items).some((item) => standingOf(item) !== 'known' || item.onDuplicate === 'keep-both');
  const reachable = (n: StepNumber) => step !== 4 && n < 4 && (n === 1 || ready);
  return (
    <nav aria-label={t.stepsLabel} className="steps">
      <ol>
        {t.steps.map((name, i) => {
          const n = (i + 1) as StepNumber;
          return (
            <li key={name} data-passed={n < step}>
              <button
                type="button"
                disabled={n !== step && !reachable(n)}
                aria-current={n === step ? 'step' : undefined}
                onClick={() => imported.act({ do: 'step', step: n })}
              >
                <span className="step-n number" aria-hidden="true">
                  {n}
                </span>
                {name}
              </button>
            </li>
          );
        })}
      </ol>
    </nav>
  );
}

/** A step's heading. It takes the focus when its step begins, so that nobody is left where nothing is any more. */
export function StepHeading({ step, children }: { step: StepNumber; children: string }) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    // The first step is the page itself; taking the focus there would skip the page's own beginning.
    if (step !== 1) heading.current?.focus();
  }, [step]);
  return (
    <h1 ref={heading} tabIndex={-1} className="step-heading">
      {children}
      <span className="unseen"> {t.stepOf(step, t.steps[step - 1] ?? '')}</span>
    </h1>
  );
}
