import { type LivePhase, livePhase } from '@sthene/contract';
import { highestSince, type RigLive } from '../../live/index.ts';
import { numberText } from '../../number/format.ts';
import { Icon } from '../../parts/icon.tsx';
import { liveWords as words } from '../../words/live.ts';
import { clockText, type ForceView, shortForce } from './numbers.ts';
import './phases.css';

const shown = livePhase.options.filter((phase) => phase !== 'waiting');

/** The phases of a turn in their order; the present one large, with what it is about. */
export function PhaseList({ rig, view, restLeft }: { rig: RigLive; view: ForceView; restLeft: number }) {
  const phase = rig.floor?.phase ?? 'waiting';
  const at = shown.indexOf(phase as (typeof shown)[number]);
  return (
    <ol className="phase-list" aria-label={words.phases}>
      {phase === 'waiting' && (
        <li data-when="now" aria-current="step">
          <b>{words.phase.waiting}</b>
          <span className="phase-detail">{rig.floor?.now.words}</span>
        </li>
      )}
      {shown.map((one, i) => {
        const when = at < 0 || i > at ? 'ahead' : i === at ? 'now' : 'passed';
        const detail =
          when === 'now'
            ? nowDetail(rig, view, restLeft)
            : when === 'passed'
              ? passedDetail(one, rig, view)
              : undefined;
        return (
          <li key={one} data-when={when} aria-current={when === 'now' ? 'step' : undefined}>
            <b>{words.phase[one]}</b>
            {detail !== undefined && <span className="phase-detail number">{detail}</span>}
            {when === 'now' && <span className="phase-say">{rig.floor?.held ? words.held : rig.floor?.now.words}</span>}
            {when === 'passed' && <Icon name="pass" />}
            <span className="unseen">
              {when === 'passed' ? words.passed : when === 'now' ? words.current : words.ahead}
            </span>
          </li>
        );
      })}
    </ol>
  );
}

function nowDetail({ floor, now, countdown, trace }: RigLive, view: ForceView, restLeft: number): string | undefined {
  if (floor === undefined) return undefined;
  const { phase, weighing } = floor;
  if (countdown?.of === 'away') return words.countdown.away(countdown.left);
  if (phase === 'rest') return clockText(restLeft);
  if (phase === 'stand-still' && weighing !== undefined)
    return `${words.weighing(numberText(weighing.progress * 100, 0))}${countdown?.restarted ? ` \u00b7 ${words.again}` : ''}`;
  if (countdown !== undefined && phase === 'zero') return words.countdown.zero(countdown.left);
  if (phase === 'pull') {
    const highest = shortForce(highestSince(trace, floor.since), view);
    return highest === undefined ? undefined : words.values.highest(highest);
  }
  return phase === 'verdict' ? undefined : shortForce(now?.total, view);
}

function passedDetail(phase: LivePhase, { floor }: RigLive, view: ForceView): string | undefined {
  const weight = floor?.weighing?.bodyWeight;
  if (phase !== 'stand-still' || weight === undefined) return undefined;
  return view.mode === 'total' ? words.values.total(numberText(weight, 0)) : words.weighed;
}
