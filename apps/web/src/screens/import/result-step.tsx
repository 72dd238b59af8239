import { metricFacts } from '@sthene/core';
import { useEffect, useRef } from 'react';
import { Link } from 'react-router';
import { usePreference } from '../../data/use-preference.ts';
import { Icon } from '../../parts/icon.tsx';
import { StateMark } from '../../parts/state-mark.tsx';
import { importWords } from '../../words/importing.ts';
import { words } from '../../words/index.ts';
import { peakOf } from './dry-run.tsx';
import { groupOf, type Item } from './state.ts';
import { StepHeading } from './steps.tsx';
import type { Import } from './use-import.ts';
import { useRun } from './use-run.ts';

/** Step 4: what came of each file, with the way straight to the trial and a retry of what failed. */
export function ResultStep({ imported }: { imported: Import }) {
  const t = importWords.result;
  const { lab, state, act } = imported;
  const [by] = usePreference('signed-as');
  const run = useRun(imported);
  const tried = state.items.filter((item) => item.outcome || item.importProblem);
  const failed = tried.filter((item) => item.importProblem);
  const trials = tried.flatMap((item) => item.outcome?.trials ?? []);
  const first = trials.find(({ id }) => id !== undefined);
  const session = tried.find((item) => item.outcome?.session !== undefined)?.outcome?.session;
  const kept = [
    ...new Set(
      tried.flatMap((item) => {
        const draft = state.drafts[groupOf(item)];
        return item.outcome && draft?.remember ? [draft.rememberAs.trim()] : [];
      }),
    ),
  ];
  const link = useRef<HTMLAnchorElement>(null);
  useEffect(() => link.current?.focus(), []);
  return (
    <div className="step">
      <StepHeading step={4}>{t.title(trials.length)}</StepHeading>
      {failed.length > 0 && <p role="alert">{t.some(failed.length)}</p>}
      {trials.length === 1 && first !== undefined && (first.peakForce ?? first.headline) !== undefined && (
        <p className="result-only">
          <StateMark state={first.verdict} />
          <span className="result-peak number">{peakOf({ trial: first })}</span>
          <span className="soft">{first.headline ? metricFacts.get(first.headline.metric)?.title : t.peakName}</span>
        </p>
      )}
      <div className="acts">
        {first && (
          <Link ref={link} className="button main" to={`/${lab}/trials/${first.id}`}>
            {trials.length === 1 ? t.openTrial : t.openFirst}
          </Link>
        )}
        {session && (
          <Link className="button" to={`/${lab}/sessions/${session}`}>
            {t.openSession}
          </Link>
        )}
        {failed.length > 0 && (
          <button type="button" className="button" disabled={run.busy} onClick={() => void run.start(failed, by ?? '')}>
            {run.busy ? importWords.importing(run.done + 1, run.of) : t.retry(failed.length)}
          </button>
        )}
        <button type="button" className="button" onClick={() => act({ do: 'again' })}>
          {t.more}
        </button>
      </div>
      <ul className="results" aria-label={t.list}>
        {tried.map((item) => (
          <Result key={item.key} item={item} lab={lab} />
        ))}
      </ul>
      {kept.map((name) => (
        <p key={name} className="small soft">
          {t.kept(name)}
        </p>
      ))}
    </div>
  );
}

function Result({ item, lab }: { item: Item; lab: string }) {
  const t = importWords.result;
  const { outcome, importProblem } = item;
  const duplicate = outcome?.trials.length === 0 ? item.upload?.duplicates[0] : undefined;
  const word = importProblem ? t.failed : outcome?.trials.length === 0 ? t.skipped : t.done;
  return (
    <li
      className="result"
      data-failed={importProblem !== undefined}
      data-done={importProblem === undefined && (outcome?.trials.length ?? 0) > 0}
    >
      <div className="file-head">
        <span className="file-standing">
          <Icon name={importProblem ? 'fail' : outcome?.trials.length === 0 ? 'not-judged' : 'pass'} size={18} />
          {word}
        </span>
        <span className="file-name">{item.file.name}</span>
      </div>
      {importProblem && (
        <div className="file-trouble">
          <p>{importProblem.detail}</p>
          <p>{importProblem.next}</p>
          <p className="small soft">
            {words.problem.code} <span className="number">{importProblem.code}</span>
          </p>
        </div>
      )}
      {duplicate && (
        <p className="small">
          {importWords.file.duplicates} <Link to={`/${lab}/trials/${duplicate.trial}`}>{duplicate.words}</Link>
        </p>
      )}
      {outcome && outcome.trials.length > 0 && (
        <ul className="result-trials">
          {outcome.trials.map((trial, i) => (
            <li key={trial.id ?? i}>
              <Link to={`/${lab}/trials/${trial.id}`}>{trial.label || words.trial.trialN(i + 1)}</Link>
              <StateMark state={trial.verdict} />
              {trial.headline ? (
                <span className="number">{peakOf({ trial })}</span>
              ) : (
                trial.peakForce !== undefined && <span className="number">{t.peak(peakOf({ trial }))}</span>
              )}
            </li>
          ))}
        </ul>
      )}
    </li>
  );
}
