import type { LabId, NormsView } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { publishedQuery } from '../../data/follow.ts';
import { Answer } from '../../parts/answer.tsx';
import { publishedWords as t } from '../../words/published.ts';
import { inSentence } from '../../words/title.ts';
import { testTitle } from '../trial/test-title.ts';
import { PlacePart } from './place-part.tsx';
import { PublishedRanges, PublishedTable } from './published-table.tsx';
import './published.css';

interface PartProps {
  readonly lab: LabId;
  readonly test: string;
  readonly metric: NormsView['metric'];
}

/** Published values of other people, in a block of their own: never mixed with the lab's. */
export function PublishedPart({ lab, test, metric }: PartProps) {
  const query = useQuery(publishedQuery(lab, { test, metric: metric.id }));
  return (
    <section className="published" aria-labelledby="published-title" aria-busy={query.isFetching}>
      <h2 id="published-title">{t.title}</h2>
      <Answer of={query} waiting={<span className="bone published-bone" />}>
        {(view) =>
          view.groups.length + view.ranges.length === 0 ? (
            <p className="soft">{t.none(testTitle(view.test ?? test), inSentence(view.metric.title))}</p>
          ) : (
            <>
              <p className="soft">{t.text}</p>
              <ul className="published-cautions">
                {t.cautions([...view.groups, ...view.ranges].some(({ weight }) => weight !== 'no-force')).map((one) => (
                  <li key={one}>{one}</li>
                ))}
              </ul>
              {view.groups.length > 0 && <PublishedTable view={view} />}
              {view.groups.length > 0 && (
                <PlacePart key={`${view.test} ${view.metric.id} ${view.metric.unit}`} lab={lab} view={view} />
              )}
              {view.ranges.length > 0 && <PublishedRanges view={view} />}
            </>
          )
        }
      </Answer>
    </section>
  );
}
