import type { BeforeView } from '@sthene/contract';
import { numberText } from '../../number/format.ts';
import { athleteWords } from '../../words/athletes.ts';
import { followWords } from '../../words/follow.ts';
import { scaleText } from '../athletes/values.ts';
import { trialsText } from './plans.ts';

/** Where the error comes from. */
export function WherePart({ view }: { view: BeforeView }) {
  const t = followWords.before;
  const { noise } = view;
  if (noise === undefined) return null;
  const df = (n: number) => athleteWords.part.usedOf(numberText(n, 0));
  return (
    <section aria-labelledby="before-where">
      <h2 id="before-where">{t.parts}</h2>
      <dl className="before-parts">
        <div>
          <dt>{t.between}</dt>
          <dd>
            <span className="number">{scaleText(noise.between, view)}</span>
          </dd>
        </div>
        <div>
          <dt>{t.within}</dt>
          <dd>
            <span className="number">{scaleText(noise.within.value, view)}</span>{' '}
            <span className="small soft">
              {df(noise.within.df)}; {t.trialsNow(trialsText(noise.trials))}
            </span>
          </dd>
        </div>
        <div>
          <dt>{t.error}</dt>
          <dd>
            <span className="number">{scaleText(noise.error.value, view)}</span>{' '}
            <span className="small soft">
              {noise.adopted ? t.adopted : t.history}, {df(noise.error.df)}
              {noise.people < 10 && ` ${athleteWords.part.fewPeople(noise.people)}`}
            </span>
          </dd>
        </div>
        <div>
          <dt>{t.worthwhile}</dt>
          <dd>
            {noise.worthwhile === undefined ? (
              <span className="small soft">{athleteWords.part.worthwhileNone}</span>
            ) : (
              <span className="number">{scaleText(noise.worthwhile, view)}</span>
            )}
          </dd>
        </div>
        <div>
          <dt>{t.rig}</dt>
          <dd>
            <span className="soft">{view.rigCheck === undefined ? t.noRig : view.rigCheck.at}</span>
          </dd>
        </div>
      </dl>
    </section>
  );
}
