import type { LabId, LiveVerdict } from '@sthene/contract';
import { Link } from 'react-router';
import { numberText, quantityText } from '../../number/format.ts';
import { Icon } from '../../parts/icon.tsx';
import { words as common } from '../../words/index.ts';
import { liveWords as words } from '../../words/live.ts';
import { type ForceView, forceText } from './numbers.ts';
import './verdict.css';

export interface VerdictPanelProps {
  readonly lab: LabId;
  readonly verdict: LiveVerdict;
  readonly view: ForceView;
  readonly onJudge: (decision: 'counts' | 'does-not-count') => void;
}

/** Whether it counts, why not, what to say, and the value beside the athlete's own best. */
export function VerdictPanel({ lab, verdict, view, onJudge }: VerdictPanelProps) {
  const { verdict: word, reasons, say, values, effort, trial } = verdict;
  return (
    <section className="verdict-panel" data-verdict={word}>
      <h2 className="verdict-word">
        <Icon name={word} size={36} />
        {common.verdict[word]}
      </h2>
      {say !== '' && (
        <p className="verdict-say">
          <span className="unseen">{words.verdict.say}: </span>&ldquo;{say}&rdquo;
        </p>
      )}
      {reasons.slice(0, 2).map(({ check, status, words: text }) => (
        <p key={check} className="verdict-reason" data-status={status}>
          <Icon name={status} size={18} />
          {text}
        </p>
      ))}
      <ul className="verdict-values">
        {values.slice(0, 2).map((value) => (
          <VerdictValue key={value.metric} value={value} view={view} />
        ))}
      </ul>
      <div className="verdict-acts">
        {effort.kind === 'maximal' && (
          <button
            type="button"
            className="button"
            onClick={() => onJudge(word === 'counts' ? 'does-not-count' : 'counts')}
          >
            {word === 'counts' ? words.act.doesNotCount : words.act.counts}
          </button>
        )}
        <Link className="button quiet" to={`/${lab}/trials/${encodeURIComponent(trial)}`} target="_blank">
          {words.verdict.open}
        </Link>
      </div>
    </section>
  );
}

function VerdictValue({ value, view }: { value: LiveVerdict['values'][number]; view: ForceView }) {
  // A total beside the curve above standing would give the weight away; forces follow the curve.
  const total = value.metric === 'peak_force';
  const text = total ? forceText(value.value, view) : quantityText(value.value, value.unit, { sampleRate: 1000 });
  if (text === undefined || (view.mode !== 'total' && value.unit === 'N/kg')) return null;
  const gain = value.history === undefined ? undefined : value.value - value.history.best;
  return (
    <li>
      <span className="small soft">{value.words}</span>
      <b className="number">{text}</b>
      {gain !== undefined && (
        <span className="small">
          {gain > 0
            ? words.verdict.more(quantityText(gain, value.unit, { sampleRate: 1000, noise: 1 }))
            : words.verdict.less(`${numberText(-gain, 0)}\u00a0${value.unit}`)}
        </span>
      )}
    </li>
  );
}
