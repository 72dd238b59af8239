import type { Lab } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import { sessionPagesQuery } from '../../data/session-pages.ts';
import { whenText } from '../../number/when.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { useSay } from '../../parts/status.tsx';
import { words } from '../../words/index.ts';
import { sessionWords } from '../../words/session-list.ts';
import { startWords } from '../../words/start.ts';
import { peakText } from '../sessions/session-table.tsx';
import { sessionTitle } from '../trial/test-title.ts';
import { usePractice } from './use-practice.ts';

const shown = 5;

/** A day of the example squad to practise on; goes on with the one that is there. */
function PracticeButton() {
  const practice = usePractice(true);
  return (
    <>
      <button type="button" className="button main" disabled={practice.pending} onClick={() => void practice.begin()}>
        {startWords.labs.practice}
      </button>
      {practice.error && <ProblemCard error={practice.error} />}
    </>
  );
}

/** What a lab holds, its last sessions, and where its data lie. */
export function LabCard({ lab }: { lab: Lab }) {
  const t = startWords.labs;
  const say = useSay();
  const sessions = useQuery(sessionPagesQuery(lab.id, { limit: shown, offset: 0 }));
  return (
    <article className="lab-card" aria-labelledby={`lab-${lab.id}`}>
      <header className="lab-card-head">
        <h2 id={`lab-${lab.id}`}>
          {lab.name.replace(/ \(example\)$/, '')}{' '}
          {lab.demo && (
            <abbr className="example-mark small" title={words.app.exampleLong}>
              {words.app.example}
            </abbr>
          )}
        </h2>
        <p className="small soft">{t.counts(lab.people, lab.sessions, lab.trials)}</p>
      </header>
      {sessions.data?.rows.length === 0 && <p className="soft">{t.none}</p>}
      {sessions.data && sessions.data.rows.length > 0 && (
        <ul className="last-sessions" aria-label={t.last}>
          {sessions.data.rows.map((row) => (
            <li key={row.id}>
              <Link to={`/${lab.id}/sessions/${row.id}`}>
                <b>{row.person.name}</b>
                <span className="small soft">
                  {sessionTitle(row)}, {whenText(row.startedAt, false)}
                </span>
                <span className="number last-peak">
                  {(row.peakForce ?? row.headline) ? (
                    peakText(
                      row.peakForce?.value ?? row.headline?.value ?? 0,
                      row.peakForce?.unit ?? row.headline?.unit ?? '',
                    )
                  ) : (
                    <span className="soft small">{sessionWords.noPeak}</span>
                  )}
                </span>
              </Link>
            </li>
          ))}
        </ul>
      )}
      <div className="acts">
        {lab.demo ? (
          <PracticeButton />
        ) : (
          <Link className="button main" to={`/${lab.id}/day`}>
            {t.plan}
          </Link>
        )}
        <Link className="button" to={`/${lab.id}/sessions`}>
          {t.sessions}
        </Link>
        {!lab.demo && (
          <Link className="button" to={`/${lab.id}/import`}>
            {startWords.import.act}
          </Link>
        )}
      </div>
      <p className="small soft folder">
        {t.folder}: <code className="folder-path">{lab.folder}</code>{' '}
        <button
          type="button"
          className="button quiet small"
          onClick={() =>
            void navigator.clipboard.writeText(lab.folder).then(
              () => say(t.copied),
              () => {},
            )
          }
        >
          {t.copy}
        </button>
      </p>
    </article>
  );
}
