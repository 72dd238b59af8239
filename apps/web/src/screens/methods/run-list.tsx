import type { LabId, Recomputation } from '@sthene/contract';
import { Link } from 'react-router';
import { whenText } from '../../number/when.ts';
import { Icon, type IconName } from '../../parts/icon.tsx';
import { methodWords } from '../../words/methods.ts';

const t = methodWords.runs;

const icons: Readonly<Record<Recomputation['state'], IconName>> = {
  running: 'event-next',
  paused: 'minus',
  finished: 'warn',
  adopted: 'pass',
  discarded: 'fail',
  failed: 'fail',
};

/** How a run stands: sign and word. */
export function RunState({ state }: { state: Recomputation['state'] }) {
  return (
    <span className="run-state" data-run={state}>
      <Icon name={icons[state]} size={16} />
      {t.state[state]}
    </span>
  );
}

/** Every run, newest first. */
export function RunList({ lab, runs }: { lab: LabId; runs: readonly Recomputation[] }) {
  if (runs.length === 0) return <p className="soft">{t.none}</p>;
  return (
    <div className="table-scroll">
      <table className="method-list">
        <caption className="unseen">{t.title}</caption>
        <thead>
          <tr>
            <th scope="col">{t.head.method}</th>
            <th scope="col">{t.head.state}</th>
            <th scope="col" className="right">
              {t.head.trials}
            </th>
            <th scope="col" className="not-on-phone">
              {t.head.started}
            </th>
          </tr>
        </thead>
        <tbody>
          {runs.map(({ id, method, state, done, trials, failed, startedAt }) => (
            <tr key={id}>
              <th scope="row">
                <Link to={`/${lab}/methods/runs/${id}`}>{methodWords.named(method.name, method.version)}</Link>
              </th>
              <td>
                <RunState state={state} />
              </td>
              <td className="right number">
                {t.of(done, trials)}
                {failed > 0 && <span className="small soft">{t.notJudged(failed)}</span>}
              </td>
              <td className="not-on-phone">{whenText(startedAt)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
