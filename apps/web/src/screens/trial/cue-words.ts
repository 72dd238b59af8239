import type { CueHeard } from '@sthene/contract';
import { numberText } from '../../number/format.ts';
import { words } from '../../words/index.ts';

const ms = (value: number) => numberText(value, value < 10 ? 1 : 0);

/** Who gave the cue, when it was heard, and how well that is known, in one line. */
export function cueWords({ way, device = '', after, delay, delayFrom, clockWithin }: CueHeard): string {
  const t = words.decisions.cue;
  if (way === 'station') return t.station;
  return [
    `${t.way[way](device)} ${t.after(ms(after))}`,
    delayFrom === 'unknown' ? t.delayUnknown : t.delay[delayFrom](ms(delay ?? 0)),
    clockWithin === undefined ? t.noClock : t.clockWithin(ms(Math.max(0.1, clockWithin))),
  ].join('; ');
}
