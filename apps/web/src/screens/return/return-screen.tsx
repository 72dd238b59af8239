import type { LabId, ReturnView } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { Link, useParams, useSearchParams } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { returnQuery } from '../../data/follow.ts';
import { whenText } from '../../number/when.ts';
import { Icon } from '../../parts/icon.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { followWords } from '../../words/follow.ts';
import { words } from '../../words/index.ts';
import { Choice } from '../athletes/choice.tsx';
import { TableSkeleton } from '../sessions/session-table.tsx';
import { SeriesPart } from './series-part.tsx';
import '../sessions/sessions.css';
import './return.css';

/** How much of a hurt limb's own strength is back? */
export function ReturnScreen() {
  const t = followWords.return;
  const lab = useLab() ?? 'lab';
  const { id = '' } = useParams();
  const [search] = useSearchParams();
  const limb = search.get('limb');
  const injury = search.get('injury');
  const query = useQuery(
    returnQuery(lab, id, {
      ...(injury ? { injury } : {}),
      ...(limb === 'left' || limb === 'right' ? { limb } : {}),
    }),
  );
  const { data } = query;
  usePageTitle(t.title);
  return (
    <section className="page return-page" aria-busy={query.isFetching}>
      <Link to={`/${lab}/athletes/${id}`} className="way-back">
        <Icon name="left" size={16} />
        {data ? `${data.person.givenName} ${data.person.familyName}` : words.app.athletes}
      </Link>
      {query.isError && <ProblemCard error={query.error} onRetry={() => void query.refetch()} />}
      {!data && !query.isError && <TableSkeleton />}
      {data && <Returned lab={lab} view={data} />}
    </section>
  );
}

function Returned({ lab, view }: { lab: LabId; view: ReturnView }) {
  const t = followWords.return;
  const [, setSearch] = useSearchParams();
  const injury = view.injuries.find(({ id }) => id === view.injury);
  return (
    <>
      <div className="page-head">
        <h1>
          {t.title}: {view.person.givenName} {view.person.familyName}
        </h1>
        <p className="soft">{t.question}</p>
      </div>
      {injury === undefined || view.limb === undefined ? (
        <p className="nothing">{t.none}</p>
      ) : (
        <>
          <div className="return-choice">
            <Choice label={t.injury} value={injury.id} onChange={(id) => setSearch({ injury: id }, { replace: true })}>
              {view.injuries.map(({ id, from, limb, text }) => (
                <option key={id} value={id}>
                  {[
                    whenText(`${from}T12:00:00.000Z`, false),
                    limb === undefined ? '' : followWords.notes.form.limbs[limb],
                    text,
                  ]
                    .filter(Boolean)
                    .join(', ')}
                </option>
              ))}
            </Choice>
            {injury.limb === 'both' && (
              <Choice
                label={t.limb}
                value={view.limb}
                onChange={(limb) => setSearch({ injury: injury.id, limb }, { replace: true })}
              >
                <option value="left">{t.limbs.left}</option>
                <option value="right">{t.limbs.right}</option>
              </Choice>
            )}
          </div>
          <p className="return-caution">{t.caution}</p>
          {view.series.length === 0 && <p className="nothing">{t.after}</p>}
          {view.series.map((series) => (
            <SeriesPart key={`${series.test} ${series.metric.id}`} lab={lab} series={series} />
          ))}
          <p className="small soft">{t.symmetry}</p>
        </>
      )}
    </>
  );
}
