import type { LabId, LiveVerdict } from '@sthene/contract';
import { Link } from 'react-router';
import { numberText } from '../../number/format.ts';
import { Icon } from '../../parts/icon.tsx';
import { words as common } from '../../words/index.ts';
import { liveWords as words } from '../../words/live.ts';
import { type ForceView, forceText, shortForce } from './numbers.ts';
import { amountText, valueText } from './value-text.ts';
import './verdict.css';

export interface VerdictPanelProps {
  readonly lab: LabId;
  readonly verdict: LiveVerdict;
  readonly view: ForceView;
  readonly mayJudge: boolean;
  /** A question stands, and its answers judge. */
  readonly asked: boolean;
  readonly onJudge: (decision: 'counts' | 'does-not-count') => void;
}

/** Reasons that are shown whole; the rest stands on the trial's own page. */
const reasonsShown = 4;
const valuesShown = 3;

/** Whether it counts, why not, what to say, how close to the target, and the values beside the athlete's own. */
export function VerdictPanel({ lab, verdict, view, mayJudge, asked, onJudge }: VerdictPanelProps) {
  const { verdict: word, reasons, say, values, effort, trial } = verdict;
  const maximal = effort.kind === 'maximal';
  return (
    <section className="verdict-panel" data-verdict={word}>
      <h2 className="verdict-word">
        <Icon name={word} size={44} />
        {common.verdict[word]}
      </h2>
      {say !== '' && (
        <p className="verdict-say">
          <span className="unseen">{words.verdict.say}: </span>&ldquo;{say}&rdquo;
        </p>
      )}
      {verdict.closeness !== undefined && <Closeness closeness={verdict.closeness} view={view} />}
      {reasons.slice(0, reasonsShown).map(({ check, status, words: text }) => (
        <Reason key={check} status={status} text={text} />
      ))}
      {reasons.length > reasonsShown && (
        <p className="small soft">{words.verdict.moreReasons(reasons.length - reasonsShown)}</p>
      )}
      <ul className="verdict-values">
        {values.slice(0, valuesShown).map((value) => (
          <VerdictValue key={value.metric} value={value} view={view} />
        ))}
      </ul>
      <div className="floor-verdict-acts">
        {maximal && !asked && (
          <button
            type="button"
            className="button big"
            disabled={!mayJudge}
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

/** What is held against it; what a reason without a finding of its own means follows in plain type. */
function Reason({ status, text }: { status: 'warn' | 'fail'; text: string }) {
  const cut = text.indexOf('. ');
  const [finding, why] = cut < 0 ? [text, ''] : [text.slice(0, cut + 1), text.slice(cut + 2)];
  return (
    <p className="verdict-reason" data-status={status}>
      <Icon name={status} size={20} />
      <span>
        <b>{finding}</b> {why}
      </span>
    </p>
  );
}

/** Where the effort came to lie against its band. */
function Closeness({ closeness, view }: { closeness: NonNullable<LiveVerdict['closeness']>; view: ForceView }) {
  const { low, high, reached, deviation, where } = closeness;
  const span = high - low;
  // The band takes the middle third; a band's width to either side is shown.
  const at = Math.max(0, Math.min(100, 100 * ((reached - (low - span)) / (3 * span))));
  const text = words.verdict.closeness[where](numberText(Math.abs(deviation), 0));
  const force = shortForce(reached, view);
  return (
    <div className="verdict-closeness">
      <div className="closeness-rail" aria-hidden="true">
        <i style={{ left: `${at}%` }} />
      </div>
      <p>
        <b>{text}</b>
        {force !== undefined && (
          <>
            {' '}
            <span className="number">{force}</span>
          </>
        )}
      </p>
    </div>
  );
}

function VerdictValue({ value, view }: { value: LiveVerdict['values'][number]; view: ForceView }) {
  // A total beside the curve above standing would give the weight away; forces follow the curve.
  const force = value.metric === 'peak_force';
  const text = force
    ? forceText(value.value, view) && words.values.total(numberText(value.value - view.less, 0))
    : value.metric === 'asymmetry_at_peak'
      ? sideText(value.value)
      : valueText(value.value, value.unit);
  if (text === undefined || (view.mode !== 'total' && value.unit === 'N/kg')) return null;
  const { history } = value;
  const headline = force || value.unit === 'm';
  // Said once in plain type: the number stands on one line.
  const name = force && view.mode === 'above' ? words.values.nameAbove(value.words) : value.words;
  return (
    <li data-headline={headline}>
      <span className="small soft">{name}</span>
      <b className="number">{text}</b>
      {history !== undefined && (
        <span className="small">
          <Against value={value.value} unit={value.unit} history={history} />
        </span>
      )}
      {headline && history === undefined && <span className="small soft">{words.verdict.first}</span>}
    </li>
  );
}

/** An asymmetry by its side: positive is right. */
function sideText(percent: number): string {
  const size = Math.abs(percent);
  if (size < 0.05) return words.balance.even;
  return words.balance.more(percent < 0 ? words.balance.left : words.balance.right, numberText(size, 1));
}

type History = NonNullable<LiveVerdict['values'][number]['history']>;

/** More than the best, or less; a time, of which more is no best, against the mean. What rounds to nothing is no difference. */
function Against({ value, unit, history }: { value: number; unit: string; history: History }) {
  const { verdict } = words;
  const time = unit === 's';
  const difference = value - (time ? history.mean : history.best);
  const amount = amountText(Math.abs(difference), unit);
  const than = (time ? verdict.mean : verdict.best)(history.n);
  if (amount === amountText(0, unit)) return verdict.same(than);
  if (time) return (difference > 0 ? verdict.longer : verdict.shorter)(amount, than);
  return difference > 0 ? <b>{verdict.more(amount, than)}</b> : verdict.less(amount, than);
}
