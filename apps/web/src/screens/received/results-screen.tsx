import type { LabId, ReceivedOutcome } from '@sthene/contract';
import { useState } from 'react';
import { Link, useLocation, useParams } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { whenText } from '../../number/when.ts';
import { Icon } from '../../parts/icon.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { words } from '../../words/index.ts';
import { receivedWords } from '../../words/received.ts';
import { CheckPart } from './check-part.tsx';
import { ColumnsPart } from './columns-part.tsx';
import { DonePart } from './done-part.tsx';
import { MethodPart } from './method-part.tsx';
import { PeoplePart } from './people-part.tsx';
import { useResults } from './use-results.ts';
import './received.css';

/** Brings a table of earlier results in: what its columns are, by which method, whose they are. */
export function ResultsScreen() {
  const lab = useLab() ?? 'lab';
  const { upload = '' } = useParams();
  return <ResultsOf key={`${lab}${upload}`} lab={lab} upload={upload} />;
}

function ResultsOf({ lab, upload }: { lab: LabId; upload: string }) {
  const t = receivedWords.screen;
  usePageTitle(t.title);
  const results = useResults(lab, upload);
  const [done, setDone] = useState<ReceivedOutcome>();
  const { preview, mapping } = results;
  const { data } = preview;
  const name = (useLocation().state as { name?: string } | null)?.name;
  if (done) return <DonePart lab={lab} outcome={done} />;
  return (
    <section className="page results-page" aria-busy={preview.isFetching}>
      <Link to={`/${lab}/import`} className="way-back">
        <Icon name="left" size={16} />
        {t.back}
      </Link>
      <header>
        <h1>{t.title}</h1>
        {data && (
          <p className="soft">
            {name && (
              <>
                {name} {'\u00b7'}{' '}
              </>
            )}
            <span className="number">{t.rows(data.rowCount)}</span>
          </p>
        )}
      </header>
      {preview.isError && <ProblemCard error={preview.error} onRetry={() => void preview.refetch()} />}
      {!data && !preview.isError && (
        <p className="waiting" role="status">
          {words.app.loading}
        </p>
      )}
      {data?.same.map((one) => (
        <p key={one.id} className="results-note" role="status">
          <Icon name="warn" size={18} /> {t.same(whenText(one.importedAt, false), one.takenBack)}{' '}
          <Link to={`/${lab}/import/received`}>{receivedWords.list.title}</Link>
        </p>
      ))}
      {data?.kind === 'exchange' && <p className="results-note">{t.exchange}</p>}
      {data && mapping && (
        <>
          {data.kind === 'table' && <ColumnsPart results={results} preview={data} mapping={mapping} />}
          {data.kind === 'table' && <MethodPart results={results} />}
          <PeoplePart lab={lab} results={results} />
          <CheckPart lab={lab} results={results} onDone={setDone} />
        </>
      )}
    </section>
  );
}
