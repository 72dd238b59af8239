import { type LabId, liveRoutes, type RigView, type SourceRevision } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'react-router';
import { useMay } from '../../data/access.ts';
import { sourceHistoryQuery } from '../../data/rigs.ts';
import { whenText } from '../../number/when.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { words } from '../../words/index.ts';
import { rigWords } from '../../words/rig.ts';
import { RigStateMark } from './standing-mark.tsx';

/** The sources that form a rig, how each of them stands, and what their descriptions were before. */
export function SourcesPart({ lab, rig }: { lab: LabId; rig: RigView }) {
  const t = rigWords.parts;
  const [shown, setShown] = useState<string>();
  const may = useMay();
  return (
    <section className="panel" aria-labelledby="rig-sources">
      <h2 id="rig-sources">{t.title}</h2>
      <ul className="source-list">
        {rig.sources.map(({ id, name, state, words: told }) => (
          <li key={id}>
            <b>{name}</b>
            <RigStateMark state={state} />
            {rig.sources.length > 1 && <span className="small soft">{told}</span>}
            <span className="acts source-acts">
              {may(liveRoutes.sourceHistory) && (
                <button
                  type="button"
                  className="button quiet"
                  aria-expanded={shown === id}
                  aria-label={`${t.history}: ${name}`}
                  onClick={() => setShown(shown === id ? undefined : id)}
                >
                  {t.history}
                </button>
              )}
              {may(liveRoutes.changeSource) && (
                <Link
                  className="button quiet"
                  to={`/${lab}/rig/sources/${id}`}
                  aria-label={rigWords.sources.edit(name)}
                >
                  {rigWords.acts.change}
                </Link>
              )}
            </span>
            {shown === id && <History lab={lab} id={id} />}
          </li>
        ))}
      </ul>
    </section>
  );
}

function History({ lab, id }: { lab: LabId; id: string }) {
  const t = rigWords.parts;
  const history = useQuery(sourceHistoryQuery(lab, id));
  if (history.isError) return <ProblemCard error={history.error} onRetry={() => void history.refetch()} />;
  if (history.data === undefined) return <p className="soft">{words.app.loading}</p>;
  return (
    <ol className="source-history small">
      {history.data.map((one, i) => (
        <li key={one.number}>
          <b>{t.revision(one.number, one.by)}</b> <span className="soft">{whenText(one.at)}</span>
          <br />
          {changeText(one, history.data[i + 1])}
        </li>
      ))}
    </ol>
  );
}

/** Which parts of a description differ from the state before it. */
function changeText({ description }: SourceRevision, before: SourceRevision | undefined): string {
  const t = rigWords.parts;
  if (before === undefined) return t.first;
  const fields = Object.keys(t.fields) as (keyof typeof t.fields)[];
  const changed = fields.filter((one) => JSON.stringify(description[one]) !== JSON.stringify(before.description[one]));
  return changed.length === 0 ? t.same : t.changed(changed.map((one) => t.fields[one]).join(', '));
}
