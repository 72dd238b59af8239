import type { BeforeView } from '@sthene/contract';
import { followWords } from '../../words/follow.ts';
import { scaleText } from '../athletes/values.ts';
import { type Plan, planOf } from './plans.ts';

/** Every plan: a row for sessions, a column for trials. */
export function Grid({ view, usual, half }: { view: BeforeView; usual: Plan | undefined; half: Plan | undefined }) {
  const t = followWords.before;
  const trials = [...new Set(view.plans.map((one) => one.trials))];
  const sessions = [...new Set(view.plans.map((one) => one.sessions))];
  const mark = (plan: Plan | undefined) => (plan === usual ? 'usual' : plan === half ? 'half' : undefined);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard
    <section className="before-scroll" tabIndex={0} aria-labelledby="before-grid">
      <h2 id="before-grid">{t.grid}</h2>
      <table className="before-grid">
        <thead>
          <tr>
            <th />
            {trials.map((n) => (
              <th key={n} scope="col" className="right">
                {t.trials(n)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {sessions.map((n) => (
            <tr key={n}>
              <th scope="row">{t.sessions(n)}</th>
              {trials.map((k) => {
                const plan = planOf(view.plans, k, n);
                return (
                  <td key={k} className="right number" data-plan={mark(plan)}>
                    {plan === undefined ? '' : scaleText(plan.confirmable, view)}
                    {mark(plan) === 'usual' && <span className="before-mark">{t.usual}</span>}
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
