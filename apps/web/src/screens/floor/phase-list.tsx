import { livePhase, type RigFloor } from '@sthene/contract';
import { Icon } from '../../parts/icon.tsx';
import { liveWords as words } from '../../words/live.ts';
import './phases.css';

const shown = livePhase.options.filter((phase) => phase !== 'waiting');

/** The phases of a turn in their order, in two rows: what is over, what goes on, what comes. */
export function PhaseList({ phase }: { phase: RigFloor['phase'] }) {
  const at = shown.indexOf(phase as (typeof shown)[number]);
  return (
    <ol className="phase-list" aria-label={words.phases}>
      {shown.map((one, i) => {
        const when = at < 0 || i > at ? 'ahead' : i === at ? 'now' : 'passed';
        return (
          <li key={one} data-when={when} aria-current={when === 'now' ? 'step' : undefined}>
            {when === 'passed' && <Icon name="pass" size={16} />}
            {words.phase[one]}
            <span className="unseen">
              {' '}
              {when === 'passed' ? words.passed : when === 'now' ? words.current : words.ahead}
            </span>
          </li>
        );
      })}
    </ol>
  );
}
