import type { LabId, ReceivedOutcome, ReceivedRequest } from '@sthene/contract';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useId, useState } from 'react';
import { importResults, touchedByResults } from '../../data/received.ts';
import { usePreference } from '../../data/use-preference.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { guest } from '../../parts/signed.tsx';
import { receivedWords } from '../../words/received.ts';
import { OutcomeLists } from './outcome-lists.tsx';
import type { Results } from './use-results.ts';

interface CheckProps {
  readonly lab: LabId;
  readonly results: Results;
  onDone(outcome: ReceivedOutcome): void;
}

/** What would be imported, what would not and why; then the import itself. */
export function CheckPart({ lab, results, onDone }: CheckProps) {
  const t = receivedWords.screen.check;
  const { dry, dryError, checking, answers, setAnswers, request, open, labelled, tested, ready } = results;
  const [signed, keep] = usePreference('signed-as');
  const [by, setBy] = useState(signed ?? '');
  const client = useQueryClient();
  const id = useId();
  const name = by.trim() || (lab === 'example' ? guest : '');
  const run = useMutation({
    mutationFn: (body: ReceivedRequest) => importResults(lab, body),
    onSuccess: (outcome) => {
      if (by.trim()) keep(by.trim());
      for (const touched of touchedByResults) void client.invalidateQueries({ queryKey: [touched] });
      onDone(outcome);
    },
  });
  const { data } = results.preview;
  const values = dry?.values ?? 0;
  const can =
    ready && labelled && tested && open.length === 0 && name !== '' && values > 0 && !checking && !run.isPending;
  const go = () => {
    if (!request || !data) return;
    const remember = answers.remember.trim();
    run.mutate({
      ...request,
      by: name,
      ...(remember !== '' && data.signature !== '' ? { remember: { signature: data.signature, name: remember } } : {}),
    });
  };
  return (
    <section className="results-part" aria-labelledby={id}>
      <h2 id={id}>{t.title}</h2>
      {dryError && !dry && <ProblemCard error={dryError} />}
      {dry && <OutcomeLists results={results} outcome={dry} />}
      <div className="results-fields">
        {data?.kind === 'table' && data.signature !== '' && (
          <div className="results-field">
            <label htmlFor={`${id}keep`}>{t.remember}</label>
            <input
              id={`${id}keep`}
              value={answers.remember}
              maxLength={100}
              placeholder={data.template ?? ''}
              onChange={(event) => setAnswers({ remember: event.target.value })}
            />
          </div>
        )}
        <div className="results-field">
          <label htmlFor={`${id}by`}>{t.by}</label>
          <input
            id={`${id}by`}
            value={by}
            maxLength={100}
            autoComplete="name"
            onChange={(event) => setBy(event.target.value)}
          />
        </div>
      </div>
      {run.isError && <ProblemCard error={run.error} />}
      <div className="results-end">
        <p role="status" className="small">
          {run.isPending ? t.going : checking ? t.checking : whatIsMissing(results, name)}
        </p>
        <button type="button" className="button main" disabled={!can} onClick={go}>
          {t.go(values)}
        </button>
      </div>
    </section>
  );
}

/** The first thing that is still asked for, in the order of the page. */
function whatIsMissing({ ready, open, tested, labelled, people, decided }: Results, name: string): string {
  const t = receivedWords.screen.todo;
  if (!ready) return t.columns;
  if (open.length > 0) return t.questions;
  if (!tested) return t.test;
  if (!labelled) return t.label;
  if (people.length > 0 && people.every(({ key }) => !decided[key])) return t.people;
  return name === '' ? t.name : '';
}
