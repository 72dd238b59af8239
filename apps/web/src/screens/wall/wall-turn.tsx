import type { WallRig } from '@sthene/contract';
import type { WallLive } from '../../live/index.ts';
import { Icon } from '../../parts/icon.tsx';
import { liveWords } from '../../words/live.ts';
import { clockText } from '../floor/numbers.ts';
import { useWallClock } from './use-wall-clock.ts';
import { WallBar } from './wall-bar.tsx';
import { WallMark } from './wall-mark.tsx';
import { wallForce, wallLine, wallNext, wallNumber } from './wall-words.ts';

const { wallWords: words } = liveWords;

/** One athlete's turn: name, what is asked, one number, one sentence, and the bar. */
export function WallTurn({ rig, state }: { rig: WallRig; state: WallLive }) {
  const trace = state.traces[rig.rig];
  const open = state.link === 'open';
  const { result } = rig;
  const next = wallNext(
    rig,
    state.wall?.next.find((one) => one.rig === rig.rig),
  );
  // Without a number above it the sentence is what counts.
  const alone =
    wallNumber(rig, trace) === undefined && rig.stage === undefined && state.countdowns[rig.rig] === undefined;
  const said = wallLine(rig);
  // A stage that stands there large is not said once more in small.
  const stage = rig.stage === undefined ? undefined : liveWords.stage[rig.stage];
  const line = !open ? words.lost : said === stage ? '' : said;
  return (
    <>
      <section className="wall-words">
        <header>
          <WallMark letter={rig.letter} shape={rig.shape} />
          <div>
            <h1>{rig.who}</h1>
            {rig.test !== undefined && <p className="wall-test">{rig.test}</p>}
            {rig.what !== undefined && <p className="wall-what">{rig.what}</p>}
          </div>
        </header>
        <Middle rig={rig} state={state} />
        <footer>
          <p className="wall-line" role="status" data-alone={alone} data-verdict={open ? result?.verdict : undefined}>
            {open && result !== undefined && <Icon name={result.verdict} />}
            {line}
          </p>
          {next !== undefined && (
            <p className="wall-rest">
              {words.next}: {next}
            </p>
          )}
        </footer>
      </section>
      {rig.jump !== true && <WallBar rig={rig} force={open ? wallForce(rig, trace) : undefined} />}
    </>
  );
}

/** The one large thing: seconds of standing still or of rest, the highest force of a pull or of the last effort. */
function Middle({ rig, state }: { rig: WallRig; state: WallLive }) {
  const now = useWallClock();
  const countdown = state.countdowns[rig.rig];
  const left = countdown === undefined ? 0 : countdown.left - (now - countdown.at) / 1000;
  const number = wallNumber(rig, state.traces[rig.rig]);
  if (rig.phase === 'stand-still' && countdown?.of === 'stand-still')
    return (
      <div>
        <p className="wall-number">{countdown.left}</p>
        <p className="wall-unit">{countdown.restarted ? words.again : words.seconds}</p>
      </div>
    );
  if (rig.phase === 'rest' && rig.result === undefined && countdown?.of === 'rest' && left > 0)
    return (
      <div>
        <p className="wall-number">{clockText(left)}</p>
        <p className="wall-unit">{words.rest}</p>
      </div>
    );
  if (rig.stage !== undefined)
    return (
      <div>
        <p className="wall-stage">{liveWords.stage[rig.stage]}</p>
      </div>
    );
  if (number === undefined) return <div />;
  return (
    <div>
      <p className="wall-number">{number}</p>
      <p className="wall-unit">
        {rig.result?.height === undefined ? words.unit : words.height}
        {rig.result?.best && <b> &middot; {words.newBest}</b>}
      </p>
      {rig.phase === 'rest' && countdown?.of === 'rest' && left > 0 && (
        <p className="wall-unit">
          {words.rest} <b className="number">{clockText(left)}</b>
        </p>
      )}
    </div>
  );
}
