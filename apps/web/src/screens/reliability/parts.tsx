import type { ReliabilityFound, ReliabilityView } from '@sthene/contract';
import { reliabilityWords as t } from '../../words/reliability.ts';
import { scaleText, valueText } from '../athletes/values.ts';

interface PartProps {
  readonly view: ReliabilityView;
  readonly study: ReliabilityFound;
}

/** Whether the mean still moves from session to session. */
export function LearningPart({ view, study }: PartProps) {
  const name = (at: number) => t.step(view.sessions - 1 - at);
  return (
    <section aria-labelledby="study-learning">
      <h2 id="study-learning">{t.learning}</h2>
      <table className="list study-table">
        <thead>
          <tr>
            <th scope="col">{t.learningHead.from}</th>
            <th scope="col" className="right">
              {t.learningHead.change}
            </th>
            <th scope="col" className="right">
              {t.learningHead.interval}
            </th>
            <th scope="col" className="right">
              {t.learningHead.n}
            </th>
            <th scope="col">{t.learningHead.says}</th>
          </tr>
        </thead>
        <tbody>
          {study.steps.map(({ from, people, change, shifted }) => (
            <tr key={from}>
              <th scope="row">{t.stepTo(name(from), name(from + 1))}</th>
              <td className="right number peak">{change === undefined ? '' : scaleText(change.value, view)}</td>
              <td className="right number">
                {change === undefined ? '' : `${scaleText(change.low, view)} to ${scaleText(change.high, view)}`}
              </td>
              <td className="right number" data-label={t.learningHead.n}>
                {people}
              </td>
              <td className="soft">{shifted ? t.shift : t.noShift}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="small soft">{t.familiarisation(study.familiarisation)}</p>
    </section>
  );
}

/** Means and SD of each session, and who is missing. */
export function MeansPart({ view, study }: PartProps) {
  const { unit } = view.metric;
  return (
    <section aria-labelledby="study-means">
      <h2 id="study-means">{t.means}</h2>
      <table className="list study-table">
        <thead>
          <tr>
            <th scope="col">{t.meansHead.session}</th>
            <th scope="col" className="right">
              {t.meansHead.mean}
            </th>
            <th scope="col" className="right">
              {t.meansHead.sd}
            </th>
            <th scope="col" className="right">
              {t.meansHead.n}
            </th>
          </tr>
        </thead>
        <tbody>
          {study.occasions.map(({ n, mean, sd }, at) => (
            <tr key={t.step(view.sessions - 1 - at)}>
              <th scope="row">{t.step(view.sessions - 1 - at)}</th>
              <td className="right number peak">{mean === undefined ? '' : valueText(mean, unit)}</td>
              <td className="right number" data-label={t.meansHead.sd}>
                {sd === undefined ? '' : valueText(sd, unit)}
              </td>
              <td className="right number" data-label={t.meansHead.n}>
                {n}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {study.leftOut.length > 0 && (
        <p className="small soft">{t.leftOut(study.leftOut.flatMap((at) => view.people[at]?.name ?? []))}</p>
      )}
    </section>
  );
}
