import type { ComparedMetric, ComparedPairs, LabId } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { Link, useSearchParams } from 'react-router';
import { pairsQuery } from '../../data/methods.ts';
import { numberText } from '../../number/format.ts';
import { whenText } from '../../number/when.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { words } from '../../words/index.ts';
import { methodWords } from '../../words/methods.ts';
import { Choice } from '../athletes/choice.tsx';
import { valueText } from '../athletes/values.ts';
import { DifferencePlot, LinePlot } from './pair-plot.tsx';
import { comparedText, factorText } from './values.ts';

const t = methodWords.detail;
const shownPairs = 40;

/** One value before and after: two plots, what they say in numbers, and the pairs with the largest differences. */
export function PairDetail({
  lab,
  run,
  metric,
  metrics,
}: {
  lab: LabId;
  run: string;
  metric: string;
  metrics: readonly ComparedMetric[];
}) {
  const [search, setSearch] = useSearchParams();
  const level = search.get('level') === 'session' ? 'session' : 'trial';
  const found = useQuery(pairsQuery(lab, run, metric, level));
  const choose = (key: string, value: string | undefined) =>
    setSearch(
      (now) => {
        const next = new URLSearchParams(now);
        if (value === undefined) next.delete(key);
        else next.set(key, value);
        return next;
      },
      { replace: true, preventScrollReset: true },
    );
  return (
    <section className="panel" aria-labelledby="pair-detail" aria-busy={found.isFetching}>
      <div className="pair-head">
        <h2 id="pair-detail">{found.data?.metric.title ?? metric}</h2>
        <button type="button" className="button" onClick={() => choose('metric', undefined)}>
          {t.close}
        </button>
      </div>
      <div className="preview-choice">
        <Choice label={methodWords.comparison.head.metric} value={metric} onChange={(value) => choose('metric', value)}>
          {metrics.map(({ id, title }) => (
            <option key={id} value={id}>
              {title}
            </option>
          ))}
        </Choice>
        <Choice label={t.level} value={level} onChange={(value) => choose('level', value)}>
          {(['trial', 'session'] as const).map((one) => (
            <option key={one} value={one}>
              {t.levels[one]}
            </option>
          ))}
        </Choice>
      </div>
      {level === 'session' && <p className="small soft">{t.sessionHelp}</p>}
      {found.isError && <ProblemCard error={found.error} onRetry={() => void found.refetch()} />}
      {found.isPending && (
        <p className="soft" role="status">
          {words.app.loading}
        </p>
      )}
      {found.data && found.data.total === 0 && <p className="soft">{t.none}</p>}
      {found.data && found.data.total > 0 && (
        <>
          <div className="pair-plots">
            <DifferencePlot found={found.data} />
            <LinePlot found={found.data} />
          </div>
          <p className="small soft pair-keys">
            <i className="pair-key bias" aria-hidden="true" /> {t.bias} / {t.line}
            <i className="pair-key limit" aria-hidden="true" /> {t.limits}
            <i className="pair-key zero" aria-hidden="true" /> {t.identity}
          </p>
          <p className="small soft">{t.plotNote(found.data.pairs.length, found.data.total)}</p>
          <Facts metric={found.data.metric} />
          <Pairs lab={lab} found={found.data} />
        </>
      )}
    </section>
  );
}

function Facts({ metric }: { metric: ComparedMetric }) {
  const { study } = metric;
  if (study === undefined) return null;
  const between = ({ value, low, high }: { value: number; low: number; high: number }) =>
    `${comparedText(value, metric)} (${comparedText(low, metric)} to ${comparedText(high, metric)})`;
  const factor = ({ value, low, high }: { value: number; low: number; high: number }) =>
    `${factorText(value)} (${factorText(low)} to ${factorText(high)})`;
  const { limits, proportional, leastProducts, deming, passingBablok } = study;
  const line = (one: typeof passingBablok | typeof leastProducts) =>
    one?.ok ? t.slope(factor(one.value.slope), factor(one.value.intercept)) : undefined;
  const rows: readonly (readonly [string, string | undefined])[] = [
    [t.facts.bias, limits.ok ? between(limits.value.bias) : undefined],
    [t.facts.lower, limits.ok ? between(limits.value.lower) : undefined],
    [t.facts.upper, limits.ok ? between(limits.value.upper) : undefined],
    [
      t.facts.size,
      proportional.ok && proportional.value.line.p !== undefined
        ? t.sizeSays(factorText(proportional.value.line.slope), pText(proportional.value.line.p))
        : undefined,
    ],
    [
      t.facts.spread,
      proportional.ok
        ? t.spreadSays(numberText(proportional.value.spread.r, 2), pText(proportional.value.spread.p))
        : undefined,
    ],
    [t.facts.products, line(leastProducts)],
    [t.facts.deming, line(deming)],
    [t.facts.passing, line(passingBablok)],
  ];
  return (
    <>
      <dl className="pair-facts">
        {rows.map(
          ([name, said]) =>
            said !== undefined && (
              <div key={name}>
                <dt>{name}</dt>
                <dd className="number">{said}</dd>
              </div>
            ),
        )}
      </dl>
      <p className="small soft">
        {methodWords.comparison.intervals} {metric.scale === 'log' && t.logLine}
      </p>
    </>
  );
}

const pText = (p: number): string => (p < 0.001 ? '< 0.001' : numberText(p, 3));

function Pairs({ lab, found }: { lab: LabId; found: ComparedPairs }) {
  const { metric, pairs } = found;
  const size = ({ first, second }: ComparedPairs['pairs'][number]) =>
    metric.scale === 'log' ? 100 * Math.log(second / first) : second - first;
  const shown = [...pairs].sort((a, b) => Math.abs(size(b)) - Math.abs(size(a))).slice(0, shownPairs);
  return (
    <>
      <h3>{t.pairs}</h3>
      <p className="small soft">{t.largest(shown.length)}</p>
      <div className="table-scroll compared-scroll">
        <table className="method-list">
          <thead>
            <tr>
              <th scope="col">{t.head.place}</th>
              <th scope="col" className="right">
                {t.head.before}
              </th>
              <th scope="col" className="right">
                {t.head.after}
              </th>
              <th scope="col" className="right">
                {t.head.difference}
              </th>
            </tr>
          </thead>
          <tbody>
            {shown.map((pair) => (
              <tr key={pair.trial ?? pair.session}>
                <th scope="row">
                  <Link
                    to={pair.trial === undefined ? `/${lab}/sessions/${pair.session}` : `/${lab}/trials/${pair.trial}`}
                  >
                    {pair.person}, {whenText(pair.at, false)}
                    {pair.order === undefined ? '' : `, ${pair.order}`}
                  </Link>
                </th>
                <td className="right number">{valueText(pair.first, metric.unit)}</td>
                <td className="right number">{valueText(pair.second, metric.unit)}</td>
                <td className="right number">{comparedText(size(pair), metric)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}
