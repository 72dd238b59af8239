import type { RigLive } from '../../live/index.ts';
import { highestSince } from '../../live/index.ts';
import { numberText } from '../../number/format.ts';
import { liveWords as words } from '../../words/live.ts';
import { clockText, type ForceView, shortForce } from './numbers.ts';
import './now-panel.css';

interface NowProps {
  readonly rig: RigLive;
  readonly view: ForceView;
  readonly restLeft: number;
  /** No samples come. */
  readonly silent: boolean;
}

/** The phase that goes on: its name, the one number it is about, what to do, and what to say to the athlete. */
export function NowPanel({ rig, view, restLeft, silent }: NowProps) {
  const { floor, countdown } = rig;
  const phase = floor?.phase ?? 'waiting';
  const ofForce = phase === 'set-up' || phase === 'ready' || phase === 'pull';
  const stage = floor?.jump?.stage;
  const number = silent && ofForce ? undefined : bigNumber(rig, view, restLeft);
  const title = floor?.held ? words.held : stage === undefined ? words.phase[phase] : words.stage[stage];
  // A stage whose name says it all is said once.
  const unsaid = (text: string | undefined) => (stage !== undefined && text === title ? undefined : text);
  const say = unsaid(floor?.say?.words);
  // With nobody there the sentence would say the heading once more.
  const own = phase === 'waiting' && floor?.now.code === 'waiting' ? undefined : unsaid(floor?.now.words);
  return (
    <section className="now-panel" data-phase={phase} data-held={floor?.held ?? false}>
      <h2>{title}</h2>
      {number !== undefined && (
        <p className="now-number">
          <b className="number">{number.text}</b> <span>{number.of}</span>
        </p>
      )}
      {silent && <p className="still-again">{words.noSamples}</p>}
      {countdown?.restarted && phase === 'stand-still' && <p className="still-again">{words.movedAgain}</p>}
      {say !== undefined && (
        <p className="now-say">
          <span className="unseen">{words.verdict.say}: </span>&ldquo;{say}&rdquo;
        </p>
      )}
      {own !== undefined && own !== say && <p className="now-own">{own}</p>}
    </section>
  );
}

interface BigNumber {
  readonly text: string;
  readonly of: string;
}

function bigNumber(rig: RigLive, view: ForceView, restLeft: number): BigNumber | undefined {
  const { floor, now, countdown, trace } = rig;
  if (floor === undefined) return undefined;
  const { number } = words;
  if (countdown?.of === 'away') return { text: String(countdown.left), of: number.away };
  switch (floor.phase) {
    case 'zero':
      return countdown?.of === 'zero' ? { text: String(countdown.left), of: number.quiet } : undefined;
    case 'stand-still':
      return countdown?.of === 'stand-still' ? { text: String(countdown.left), of: number.still } : undefined;
    case 'cue':
      return countdown?.of === 'count' ? { text: String(countdown.left), of: number.count } : undefined;
    case 'rest':
      return restLeft > 0 ? { text: clockText(restLeft), of: number.rest } : undefined;
    case 'jump': {
      const { kind, flights = 0 } = floor.jump ?? {};
      return kind === 'repeated' && flights > 0 ? { text: String(flights), of: number.flights(flights) } : undefined;
    }
    case 'set-up':
    case 'ready': {
      if (floor.jump !== undefined) return undefined;
      const force = shortForce(now?.total, view);
      return force === undefined ? undefined : { text: force, of: number.tension };
    }
    case 'pull': {
      const highest = shortForce(highestSince(trace, floor.since), view);
      const time = rig.now === undefined ? 0 : (rig.now.sample - floor.since) / (rig.view?.rate.promised ?? 1000);
      return highest === undefined
        ? undefined
        : { text: highest, of: number.highest(numberText(Math.max(0, time), 0)) };
    }
    default:
      return undefined;
  }
}
