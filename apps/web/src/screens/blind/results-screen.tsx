import type { BlindPair, BlindResults, LabId } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { blindResultsQuery } from '../../data/follow.ts';
import { numberText, signedText } from '../../number/format.ts';
import { Icon } from '../../parts/icon.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { blindWords } from '../../words/blind.ts';
import { TableSkeleton } from '../sessions/session-table.tsx';
import '../sessions/sessions.css';
import './blind.css';

/** Readers against each other and against the method. */
export function ResultsScreen() {
  usePageTitle(blindWords.title);
  const lab = useLab() ?? 'lab';
  const { id = '' } = useParams();
  const results = useQuery(blindResultsQuery(lab, id));
  return (
    <section className="page blind-page" aria-busy={results.isFetching}>
      <Link to={`/${lab}/blind`} className="way-back">
        <Icon name="left" size={16} />
        {blindWords.back}
      </Link>
      {results.isError && <ProblemCard error={results.error} onRetry={() => void results.refetch()} />}
      {results.isPending && <TableSkeleton />}
      {results.data && <Compared lab={lab} results={results.data} />}
    </section>
  );
}

const who = (name: string) => (name === 'method' ? blindWords.results.method : name);
const ms = (value: number | undefined) =>
  value === undefined ? '' : `${signedText(value, 1)}\u00a0${blindWords.results.ms}`;
const share = (value: number | undefined) => (value === undefined ? '' : `${numberText(100 * value, 0)}\u00a0%`);

function Compared({ lab, results }: { lab: LabId; results: BlindResults }) {
  const t = blindWords.results;
  const { pairs, study, trials } = results;
  return (
    <>
      <h1>{t.title(study.title)}</h1>
      <table className="list blind-table">
        <thead>
          <tr>
            <th scope="col">{t.head.pair}</th>
            <th scope="col" className="right">
              {t.head.n}
            </th>
            <th scope="col" className="right">
              {t.head.bias}
            </th>
            <th scope="col" className="right">
              {t.head.limits}
            </th>
            <th scope="col" className="right">
              {t.head.within}
            </th>
            <th scope="col" className="right">
              {t.head.alike}
            </th>
            <th scope="col" className="right">
              {t.head.kappa}
            </th>
          </tr>
        </thead>
        <tbody>
          {pairs.map((pair) => (
            <PairRow key={`${pair.first} ${pair.second}`} pair={pair} />
          ))}
        </tbody>
      </table>
      <p className="small soft">{t.kappaWhat}</p>
      <h2>{t.trials}</h2>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard */}
      <section className="blind-scroll" tabIndex={0} aria-label={t.trials}>
        <table className="list blind-trials">
          <thead>
            <tr>
              <th scope="col">{t.trialHead}</th>
              {study.readers.map(({ name }) => (
                <th key={name} scope="col">
                  {name}
                </th>
              ))}
              <th scope="col">{t.method}</th>
            </tr>
          </thead>
          <tbody>
            {trials.map(({ id, sampleRate, method, readings }, i) => (
              <tr key={id}>
                <th scope="row">
                  <Link className="row-link" to={`/${lab}/trials/${id}`}>
                    {i + 1}
                  </Link>
                </th>
                {study.readers.map(({ name }, reader) => (
                  <td key={name} data-label={name}>
                    {said(readings[reader], sampleRate)}
                  </td>
                ))}
                <td data-label={t.method}>{said(method, sampleRate)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </>
  );
}

function PairRow({ pair }: { pair: BlindPair }) {
  const t = blindWords.results;
  const { bias, limits, kappa } = pair;
  return (
    <tr>
      <th scope="row">{t.pair(who(pair.first), who(pair.second))}</th>
      <td className="right number" data-label={t.head.n}>
        {pair.n}
        {pair.oneOnly > 0 && <span className="small soft"> {t.oneOnly(pair.oneOnly)}</span>}
      </td>
      <td className="right number" data-label={t.head.bias}>
        {ms(bias?.value ?? pair.same)}
        {bias === undefined && <span className="small soft"> {pair.same === undefined ? t.few : t.same}</span>}
      </td>
      <td className="right number" data-label={limits && t.head.limits}>
        {limits === undefined ? '' : `${ms(limits.low)} to ${ms(limits.high)}`}
      </td>
      <td className="right number" data-label={t.head.within}>
        {share(pair.within10)}
      </td>
      <td className="right number" data-label={t.head.alike}>
        {share(pair.alike)}
      </td>
      <td className="right number" data-label={kappa && t.head.kappa}>
        {kappa === undefined ? '' : `${numberText(kappa.value, 2)} (SE ${numberText(kappa.standardError, 2)})`}
      </td>
    </tr>
  );
}

function said(one: BlindResults['trials'][number]['readings'][number] | undefined, sampleRate: number): string {
  const t = blindWords.results;
  if (one === null || one === undefined) return t.notRead;
  const onset = one.onset === undefined ? t.noOnset : t.seconds(numberText(one.onset / sampleRate, 3));
  return `${onset}, ${blindWords.task.verdicts[one.verdict]}`;
}
