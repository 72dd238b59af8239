import type { Recomputation } from '@sthene/contract';
import { numberText } from '../../number/format.ts';
import { methodWords } from '../../words/methods.ts';
import { timeText } from './values.ts';

const t = methodWords.runs;

/** How far a run is: a bar, and the same in words. */
export function RunProgress({ run }: { run: Recomputation }) {
  const { done, failed, trials, rate, remaining, waiting, state, here } = run;
  const said = [
    t.of(done + failed, trials),
    ...(failed > 0 ? [t.notJudged(failed)] : []),
    ...(rate === undefined || waiting ? [] : [t.pace(numberText(rate, rate < 10 ? 1 : 0))]),
    ...(remaining === undefined || waiting ? [] : [t.left(timeText(remaining))]),
  ];
  return (
    <div className="run-progress">
      {(state === 'running' || state === 'paused' || state === 'failed') && (
        <progress max={Math.max(1, trials)} value={done + failed} aria-label={t.head.trials} />
      )}
      <p>
        <span className="number">{said.join(', ')}</span>
        {state === 'running' && waiting && <span className="run-note"> {t.waiting}</span>}
        {state === 'running' && !here && <span className="run-note"> {t.notHere}</span>}
      </p>
    </div>
  );
}
