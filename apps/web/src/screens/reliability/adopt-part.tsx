import { followRoutes, type LabId, type ReliabilityFound, type ReliabilityView } from '@sthene/contract';
import { useState } from 'react';
import { useMay } from '../../data/access.ts';
import { numberText } from '../../number/format.ts';
import { whenText } from '../../number/when.ts';
import { followWords } from '../../words/follow.ts';
import { scaleText } from '../athletes/values.ts';
import { AdoptDialog } from './adopt-dialog.tsx';

interface PartProps {
  readonly lab: LabId;
  readonly view: ReliabilityView;
  readonly study: ReliabilityFound;
}

/** What the squad is judged by, and whether this study should take its place. */
export function AdoptPart({ lab, view, study }: PartProps) {
  const t = followWords.adopt;
  const may = useMay()(followRoutes.adopt);
  const [asking, setAsking] = useState<'adopt' | 'end'>();
  const { adopted, later } = view;
  return (
    <section className="study-adopt" aria-labelledby="study-adopt">
      <h2 id="study-adopt">{t.title}</h2>
      <p>
        {adopted === undefined
          ? t.none
          : t.now(scaleText(adopted.error.value, view), whenText(adopted.at, false), adopted.by)}
      </p>
      {adopted !== undefined && (
        <p className="soft">
          {later === undefined
            ? t.noLater
            : `${t.later(
                numberText(later.ratio.value, 2),
                numberText(later.ratio.low, 2),
                numberText(later.ratio.high, 2),
                later.sessions,
              )} ${later.p < 0.05 ? t.differs : t.agrees}`}
        </p>
      )}
      {may && (
        <div className="acts study-adopt-acts">
          <button type="button" className="button" onClick={() => setAsking('adopt')}>
            {t.act}
          </button>
          {adopted !== undefined && (
            <button type="button" className="button" onClick={() => setAsking('end')}>
              {t.end}
            </button>
          )}
        </div>
      )}
      {asking !== undefined && (
        <AdoptDialog lab={lab} view={view} study={study} kind={asking} onClose={() => setAsking(undefined)} />
      )}
    </section>
  );
}
