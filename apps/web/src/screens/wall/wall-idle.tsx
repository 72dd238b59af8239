import type { WallState } from '@sthene/contract';
import type { WallLive } from '../../live/index.ts';
import { liveWords } from '../../words/live.ts';
import { clockText } from '../floor/numbers.ts';
import { useWallClock } from './use-wall-clock.ts';
import { WallMark } from './wall-mark.tsx';

const { wallWords: words } = liveWords;

interface WallIdleProps {
  readonly asked: string;
  readonly mark: WallState['marks'][number] | undefined;
  readonly state: WallLive;
}

/** Nobody has a turn here: who comes and when, or why nothing is shown. */
export function WallIdle({ asked, mark, state }: WallIdleProps) {
  const { wall, link } = state;
  const now = useWallClock();
  const next = wall?.next.find(({ rig }) => rig === mark?.rig);
  const left = next?.restLeft === undefined ? 0 : next.restLeft - (now - state.wallAt) / 1000;
  const told = link === 'open' && wall !== undefined && mark !== undefined;
  return (
    <section className="wall-idle">
      {mark && <WallMark {...mark} />}
      {told && wall.title !== '' && <p className="wall-what">{wall.title}</p>}
      {told && next !== undefined ? (
        <>
          <p className="wall-next-word">{words.next}</p>
          <h1>{next.who}</h1>
          {left > 0 && (
            <p className="wall-clock" role="timer">
              <span className="unseen">{words.rest} </span>
              {clockText(left)}
            </p>
          )}
        </>
      ) : (
        <h1 role="status">{whyNothing(state, told, asked)}</h1>
      )}
    </section>
  );
}

function whyNothing({ wall, link }: WallLive, told: boolean, asked: string): string {
  if (link === 'other-version') return words.otherVersion;
  if (link === 'lost') return words.lost;
  if (wall === undefined) return words.waiting;
  if (!wall.open) return words.noDay;
  return told ? words.nobody : words.noRig(asked);
}
