import type { SessionView } from '@sthene/contract';
import { metricFacts } from '@sthene/core';
import { unitText } from '../../number/format.ts';
import { sessionWords } from '../../words/session-list.ts';
import { peakText } from './session-table.tsx';

/** Peak force (of jumps: what ranks them) of the trials that count: mean, spread, how many. */
export function SessionSummary({ session }: { session: SessionView }) {
  const t = sessionWords.session;
  const { headline } = session;
  const shown = session.peakForce ?? (headline && { ...headline, rule: 'mean-all' });
  if (!shown) return session.rows.length === 0 ? null : <p className="soft">{t.noSummary}</p>;
  const { value, unit, n, sd, rule } = shown;
  const [number] = peakText(value, unit).split('\u00a0');
  return (
    <section className="session-summary" aria-labelledby="session-summary">
      <h2 id="session-summary">{headline ? metricFacts.get(headline.metric)?.title : t.summary}</h2>
      <p className="summary-line">
        <span className="summary-value number">{number}</span> <span className="summary-unit">{unitText(unit)}</span>
        <span className="number soft">{sessionWords.n(n)}</span>
        {sd !== undefined && (
          <span className="number soft">
            {t.sd} {peakText(sd, unit)}
          </span>
        )}
      </p>
      <p className="small soft">{n === 1 ? t.one : (t.rule[rule] ?? '')}</p>
    </section>
  );
}
