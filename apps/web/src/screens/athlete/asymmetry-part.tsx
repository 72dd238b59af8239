import type { AsymmetryView, LabId } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useRef } from 'react';
import { asymmetryQuery } from '../../data/follow.ts';
import { numberText } from '../../number/format.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { useWidth } from '../../parts/use-width.ts';
import { followWords } from '../../words/follow.ts';
import { LeaningPlot } from './leaning-plot.tsx';

interface PartProps {
  readonly lab: LabId;
  readonly person: string;
  readonly test: string;
  readonly injuries: readonly { readonly at: number; readonly text: string }[];
}

/** Which side leads from session to session; said only beyond its noise. */
export function AsymmetryPart({ lab, person, test, injuries }: PartProps) {
  const t = followWords.asymmetry;
  const asymmetry = useQuery(asymmetryQuery(lab, person, { test }));
  const host = useRef<HTMLDivElement>(null);
  const width = useWidth(host);
  const { data } = asymmetry;
  // A test on one plate, or of one side without its counterpart on the same day, has no sides to compare.
  const silent = data !== undefined && data.sessions.length === 0;
  return (
    <section className="leaning-part" hidden={silent} aria-labelledby="follow-leaning">
      <h2 id="follow-leaning">{t.title}</h2>
      {asymmetry.isError && <ProblemCard error={asymmetry.error} onRetry={() => void asymmetry.refetch()} />}
      {data && !silent && <p>{sentence(data)}</p>}
      {data?.pair && !silent && <p className="small soft">{t.pair}</p>}
      <div ref={host}>
        {data && !silent && width > 0 && <LeaningPlot view={data} width={width} injuries={injuries} />}
      </div>
      {data?.direction && (
        <p className="small soft">
          {t.direction(
            numberText(data.direction.kappa, 2),
            numberText(data.direction.standardError, 2),
            data.direction.pairs,
          )}{' '}
          {t.caution}
        </p>
      )}
    </section>
  );
}

function sentence({ leaning, detectable }: AsymmetryView): string {
  const t = followWords.asymmetry;
  if (detectable === undefined) return t.noError;
  const size = t.detectable(`${numberText(detectable, 1)}\u00a0%`);
  if (leaning === undefined) return `${t.silent} ${size}`;
  return `${t.says(t.sides[leaning.side])} ${t.rule[leaning.rule]} ${size}`;
}
