import { useEffect, useRef, useState } from 'react';
import type { RigLive } from '../../live/index.ts';
import { words as common } from '../../words/index.ts';
import { liveWords as words } from '../../words/live.ts';

/** Seconds of a stand-still or a zero that are said; a rest is said by its begin and its last half minute. */
const saidSeconds: Readonly<Record<string, readonly number[]>> = {
  zero: [],
  'stand-still': [3, 2, 1],
  count: [],
  rest: [30, 10],
  away: [30, 10],
};

/** For a screen reader: phase, what to do, countdown and verdict, once each, and the cue at once. */
export function Announcer({ rig }: { rig: RigLive }) {
  const { floor, countdown, verdict, cue } = rig;
  const stage = floor?.jump?.stage;
  const name = floor === undefined ? '' : stage === undefined ? words.phase[floor.phase] : words.stage[stage];
  const phase = floor === undefined ? '' : `${name}. ${floor.held ? words.held : floor.now.words}`;
  const judged = verdict !== undefined && (floor?.phase === 'verdict' || floor?.phase === 'rest');
  const result = judged ? `${common.verdict[verdict.verdict]}. ${verdict.say}` : '';
  const count = useSaid(
    countdown === undefined
      ? ''
      : countdown.restarted
        ? words.movedAgain
        : saidSeconds[countdown.of]?.includes(countdown.left)
          ? words.secondsLeft(countdown.left)
          : '',
  );
  return (
    <div className="unseen">
      <p aria-live="polite">{phase}</p>
      <p aria-live="polite">{result}</p>
      <p aria-live="polite">{count}</p>
      <p aria-live="assertive">{cue?.words}</p>
    </div>
  );
}

/** What was to be said last; silence does not wipe it, or a reader would be cut off. */
function useSaid(text: string): string {
  const last = useRef('');
  const [said, setSaid] = useState('');
  useEffect(() => {
    if (text === '' || text === last.current) return;
    last.current = text;
    setSaid(text);
  }, [text]);
  return said;
}
