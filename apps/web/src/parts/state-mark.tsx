import type { TrialState } from '@sthene/contract';
import { words } from '../words/index.ts';
import { Icon } from './icon.tsx';
import './state-mark.css';

/** How a trial stands: shape and word, colour only on top of them. */
export function StateMark({ state }: { state: TrialState }) {
  return (
    <span className="state-mark" data-state={state}>
      <Icon name={state === 'overruled' ? 'counts' : state} size={18} />
      {words.state[state]}
    </span>
  );
}

/** How many trials stand in which way: shape and number, with the word for those who do not see the shape. */
export function StateCount({ state, n }: { state: Exclude<TrialState, 'overruled'>; n: number }) {
  return (
    <span className="state-mark" data-state={state} title={`${n} ${words.state[state]}`}>
      <Icon name={state} size={16} />
      <span className="number">{n}</span>
      <span className="unseen"> {words.state[state]} </span>
    </span>
  );
}
