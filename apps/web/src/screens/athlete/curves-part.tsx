import type { AthleteView, LabId } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useRef } from 'react';
import { curvesQuery } from '../../data/follow.ts';
import { whenText } from '../../number/when.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { useWidth } from '../../parts/use-width.ts';
import { followWords } from '../../words/follow.ts';
import { useChoice } from '../athletes/use-choice.ts';
import { CurvesPlot } from './curves-plot.tsx';

const most = 6;

/** Mean curves of chosen sessions laid over each other at the onset; the newest and the one before until somebody chooses. */
export function CurvesPart({ lab, view }: { lab: LabId; view: AthleteView }) {
  const t = followWords.curves;
  const { curves, choose } = useChoice();
  const valued = view.sessions.filter(({ n }) => n > 0).toReversed();
  const usual = valued.slice(0, 2).map(({ id }) => id);
  const chosen = curves === undefined ? usual : curves.split(',').filter((id) => valued.some((one) => one.id === id));
  const query = useQuery({ ...curvesQuery(lab, view.person.id, chosen), enabled: chosen.length > 0 });
  const host = useRef<HTMLDivElement>(null);
  const width = useWidth(host);
  if (valued.length === 0) return null;
  const toggle = (id: string) =>
    choose('curves', (chosen.includes(id) ? chosen.filter((one) => one !== id) : [...chosen, id]).join(','));
  return (
    <section className="curves-part" aria-labelledby="follow-curves">
      <h2 id="follow-curves">{t.title}</h2>
      <p className="small soft">{t.help}</p>
      <fieldset className="curves-choice no-print">
        <legend className="unseen">{t.title}</legend>
        {valued.map(({ id, at }) => (
          <label key={id}>
            <input
              type="checkbox"
              checked={chosen.includes(id)}
              disabled={!chosen.includes(id) && chosen.length >= most}
              onChange={() => toggle(id)}
            />
            {whenText(at, false)}
          </label>
        ))}
      </fieldset>
      {query.isError && <ProblemCard error={query.error} onRetry={() => void query.refetch()} />}
      {chosen.length === 0 && <p className="soft">{t.none}</p>}
      <div ref={host}>
        {query.data && chosen.length > 0 && width > 0 && <CurvesPlot view={query.data} width={width} />}
      </div>
    </section>
  );
}
