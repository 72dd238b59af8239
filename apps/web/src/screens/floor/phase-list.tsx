import { jumpStage, livePhase, type RigFloor } from '@sthene/contract';
import { Icon } from '../../parts/icon.tsx';
import { liveWords as words } from '../../words/live.ts';
import './phases.css';

interface Step {
  readonly id: string;
  readonly text: string;
}

const stepsOf = (without: RigFloor['phase']): Step[] =>
  livePhase.options
    .filter((phase) => phase !== 'waiting' && phase !== without)
    .flatMap((phase): Step[] =>
      phase === 'jump'
        ? jumpStage.options.map((stage) => ({ id: `jump ${stage}`, text: words.stage[stage] }))
        : [{ id: phase, text: words.phase[phase] }],
    );

const ofPull = stepsOf('jump');
/** A jump stands there by its stages. */
const ofJump = stepsOf('pull');

/** The phases of a turn in their order, in rows: what is over, what goes on, what comes. */
export function PhaseList({ phase, jump }: Pick<RigFloor, 'phase' | 'jump'>) {
  const steps = jump === undefined ? ofPull : ofJump;
  const now = phase === 'jump' ? `jump ${jump?.stage ?? 'go'}` : phase;
  const at = steps.findIndex(({ id }) => id === now);
  return (
    <ol className="phase-list" aria-label={words.phases}>
      {steps.map(({ id, text }, i) => {
        const when = at < 0 || i > at ? 'ahead' : i === at ? 'now' : 'passed';
        return (
          <li key={id} data-when={when} aria-current={when === 'now' ? 'step' : undefined}>
            {when === 'passed' && <Icon name="pass" size={16} />}
            {text}
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
