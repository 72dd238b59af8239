import type { LabId, ReceivedOutcome } from '@sthene/contract';
import { useEffect, useRef } from 'react';
import { Link } from 'react-router';
import { receivedWords } from '../../words/received.ts';

/** What came of it, with the way to see it and to take it back. */
export function DonePart({ lab, outcome }: { lab: LabId; outcome: ReceivedOutcome }) {
  const t = receivedWords.screen;
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  const [first] = outcome.made;
  return (
    <section className="page results-page">
      <h1 ref={heading} tabIndex={-1} className="results-done">
        {t.done.title(outcome.values)}
      </h1>
      <p>{t.done.text}</p>
      {outcome.refusedCount > 0 && <p className="soft">{t.check.refused(outcome.refusedCount)}</p>}
      <div className="acts">
        {first && (
          <Link className="button main" to={`/${lab}/sessions/${first.id}`}>
            {t.done.first}
          </Link>
        )}
        <Link className="button" to={`/${lab}/sessions`}>
          {t.done.sessions}
        </Link>
        <Link className="button" to={`/${lab}/import`}>
          {t.done.more}
        </Link>
        <Link to={`/${lab}/import/received`}>{t.done.list}</Link>
      </div>
    </section>
  );
}
