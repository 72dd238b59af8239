import type { RigState } from '@sthene/contract';
import { Icon } from '../../parts/icon.tsx';
import { rigWords } from '../../words/rig.ts';
import type { Standing } from './ready-check.ts';

/** Shapes of the standings. */
export const standingIcons = { good: 'pass', look: 'warn', bad: 'fail', open: 'not-judged' } as const;

/** How a line of the check stands: shape and word, colour only on top of them. */
export function StandingMark({ standing, word }: { standing: Standing; word?: string }) {
  return (
    <span className="standing" data-standing={standing}>
      <Icon name={standingIcons[standing]} size={18} />
      {word ?? rigWords.check.standings[standing]}
    </span>
  );
}

const standingOf: Record<RigState, Standing> = {
  closed: 'open',
  starting: 'look',
  measuring: 'good',
  quiet: 'look',
  lost: 'bad',
  faulty: 'bad',
};

export function RigStateMark({ state }: { state: RigState }) {
  const standing = standingOf[state];
  return (
    <span className="standing" data-standing={standing}>
      <Icon name={standingIcons[standing]} size={18} />
      {rigWords.states[state]}
    </span>
  );
}
