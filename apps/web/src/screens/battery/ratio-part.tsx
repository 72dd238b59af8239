import type { LabId, Ratio, RatioView } from '@sthene/contract';
import { Link } from 'react-router';
import { signedText } from '../../number/format.ts';
import { whenText } from '../../number/when.ts';
import { batteryWords as t } from '../../words/battery.ts';
import { testTitle } from '../trial/test-title.ts';
import { RatioHistory } from './ratio-history.tsx';
import { SidesFigure } from './sides-figure.tsx';
import { ratioText } from './values.ts';

/** One ratio: its value and word, both of its sides beside it, and how it went over time; or why there is none and what to do. */
export function RatioPart({ lab, ratio }: { lab: LabId; ratio: RatioView }) {
  const { id, current } = ratio;
  const words = t.ratios[id];
  return (
    <section className={`panel battery-ratio ${current ? '' : 'without'}`} aria-labelledby={`battery-${id}`}>
      <div className="battery-said">
        <h2 id={`battery-${id}`}>{words.title}</h2>
        {current && <Value ratio={current} view={ratio} />}
        {ratio.lack && <Lack lab={lab} lack={ratio.lack} />}
        <p className="small soft">{words.about}</p>
      </div>
      {current && (
        <>
          <SidesFigure lab={lab} ratio={current} />
          <RatioHistory lab={lab} view={ratio} />
          <Cautions ratio={current} view={ratio} />
        </>
      )}
    </section>
  );
}

function Value({ ratio, view }: { ratio: Ratio; view: RatioView }) {
  const { value, error, interval, word, because } = ratio;
  const { unit } = view;
  return (
    <>
      <p className="battery-value">
        <strong className="number">{ratioText(value, unit)}</strong>
        <span className="battery-word" data-word={word}>
          {t.word[word]}
          {because === undefined ? '' : `: ${t.because[because]}`}
        </span>
      </p>
      {error !== undefined && interval !== undefined && (
        <p className="small">
          {t.error(`±\u202f${ratioText(error, unit)}`, ratioText(interval.low, unit), ratioText(interval.high, unit))}
        </p>
      )}
      {view.id === 'eccentric_utilisation_ratio' && <Augmentation ratio={ratio} />}
      <p className="small soft">{whenText(ratio.at, false)}</p>
    </>
  );
}

/** The same as a share and as a difference. */
function Augmentation({ ratio: { value, components } }: { ratio: Ratio }) {
  const [with_, without] = components;
  if (with_ === undefined || without === undefined) return null;
  return (
    <p className="small">
      {t.augmentation(
        `${signedText(100 * (value - 1), 1)}\u00a0%`,
        `${signedText(with_.value - without.value, 3)}\u00a0${with_.unit}`,
      )}
    </p>
  );
}

function Cautions({ ratio, view }: { ratio: Ratio; view: RatioView }) {
  return (
    <ul className="battery-mind small">
      {ratio.cautions.map((one) => (
        <li key={one}>{one === 'days-apart' ? t.daysApart(ratio.days) : t.caution[one]}</li>
      ))}
      {view.newer.map(({ test, at, reason }) => (
        <li key={test}>{t.newer[reason](testTitle(test), whenText(at, false))}</li>
      ))}
      <li className="soft">{t.ratios[view.id].mind}</li>
    </ul>
  );
}

function Lack({ lab, lack }: { lab: LabId; lack: NonNullable<RatioView['lack']> }) {
  const { title, next } = t.lack[lack.reason];
  const tests = lack.tests.map(testTitle).join(t.and);
  return (
    <div className="battery-lack">
      <p>
        <strong>{title(tests, lack.days ?? 0)}</strong>{' '}
        {lack.reason === 'other-method' ? <Link to={`/${lab}/methods`}>{next}</Link> : next}
      </p>
      {lack.received > 0 && <p className="small">{t.received(lack.received)}</p>}
    </div>
  );
}
