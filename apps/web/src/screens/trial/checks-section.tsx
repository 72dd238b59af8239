import { checkFacts } from '@sthene/core';
import { Icon } from '../../parts/icon.tsx';
import { words } from '../../words/index.ts';
import { highlightSpan } from './evidence.ts';
import { type CheckRow, checkRows } from './findings.ts';
import { checkQuantities } from './numbers.ts';
import { useShared } from './trial-context.ts';
import './checks.css';

/** Every check with its value and limit; a selected one draws what it judged on the curve. */
export function ChecksSection({ current }: { current: boolean }) {
  const { view } = useShared();
  const rows = checkRows(view.result);
  const judged = rows.filter((row) => row.result.status !== 'not-judged');
  const rest = rows.filter((row) => row.result.status === 'not-judged');
  const count = (status: string) => rows.filter((row) => row.result.status === status).length;
  const t = words.checks;
  return (
    <section className="beside-section checks" data-current={current} aria-label={t.title}>
      <h2>
        {t.title} <span className="soft small">{t.summary(judged.length, count('warn'), count('fail'))}</span>
      </h2>
      <ul>
        {judged.map((row) => (
          <Check key={row.id} row={row} />
        ))}
      </ul>
      {rest.length > 0 && (
        <details className="checks-rest">
          <summary className="small">{t.notJudgedTitle(rest.length)}</summary>
          <ul>
            {rest.map((row) => (
              <Check key={row.id} row={row} />
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}

function Check({ row }: { row: CheckRow }) {
  const { view, highlight, setHighlight, zoomTo } = useShared();
  const { result } = row;
  const t = words.checks;
  const { value, limit } = checkQuantities(view.result, result);
  const open = highlight?.kind === 'check' && highlight.id === row.id;
  const span = highlightSpan(view.result, { kind: 'check', id: row.id });
  const definition = checkFacts.get(row.id);
  return (
    <li className="check" data-status={result.status} data-open={open}>
      <button
        type="button"
        className="check-face"
        aria-expanded={open}
        onClick={() => setHighlight(open ? undefined : { kind: 'check', id: row.id })}
      >
        <Icon name={result.status} size={16} />
        <span className="check-title">
          {row.title}
          {row.ratesOnly && (
            <abbr className="rates-only" title={words.verdictCard.ratesOnlyLong}>
              {words.verdictCard.ratesOnly}
            </abbr>
          )}
          <span className="unseen">, {t.status[result.status]}</span>
        </span>
        {result.status === 'not-judged' ? (
          <span className="check-why small soft">{t.notJudged[result.notJudged ?? ''] ?? result.notJudged}</span>
        ) : (
          <>
            <span className="check-value number">{value}</span>
            <span className="check-limit small soft">
              {limit !== undefined && (
                <>
                  {t.bound[definition?.bound ?? 'most']} <span className="number">{limit}</span>
                </>
              )}
            </span>
          </>
        )}
      </button>
      {open && definition && (
        <div className="check-body small">
          <p>{definition.why}</p>
          <p>{definition.definition}</p>
          <p className="soft">{definition.source}</p>
          {span && (
            <p className="explain-end soft">
              {t.shown}
              <button type="button" className="button small" onClick={() => zoomTo(span)}>
                {words.curve.zoomTo}
              </button>
            </p>
          )}
        </div>
      )}
    </li>
  );
}
