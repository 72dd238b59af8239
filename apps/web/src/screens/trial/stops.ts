import type { Curve } from '@sthene/contract';
import { words } from '../../words/index.ts';
import { jumpStops } from './jump-evidence.ts';
import { onsetOf, type Result } from './numbers.ts';

/** An instant of the trial one can go to. */
export interface Stop {
  readonly at: number;
  readonly name: string;
}

/** The events of a trial in order of time: baseline, onset, epochs, half rise, peak, end, or those of a jump, and where samples are missing. */
export function stopsOf(result: Result, curve: Curve): Stop[] {
  const { events, jump } = result;
  const names = words.curve.events;
  const stops: Stop[] = curve.gaps.open.map(([start]) => ({ at: Math.max(0, start - 1), name: names.gap }));
  if (jump) stops.push(...jumpStops(result, jump));
  if (events) {
    const onset = onsetOf(result);
    const baseline = onset?.baseline ?? (events.baseline.ok ? events.baseline.value : undefined);
    if (baseline)
      stops.push({ at: baseline.start, name: names.baseline }, { at: baseline.end - 1, name: names.baselineEnd });
    if (onset) {
      stops.push({ at: onset.index, name: names.onset });
      for (const ms of [50, 100, 150, 200, 250]) {
        const measured = result.metrics[`force_at_${ms}`];
        const at = measured && 'value' in measured ? measured.evidence.points?.[0]?.at : undefined;
        if (at !== undefined) stops.push({ at: Math.round(at), name: words.curve.epoch(ms) });
      }
    }
    stops.push(
      { at: events.halfRise, name: names.halfRise },
      { at: events.peak.index, name: names.peak },
      { at: events.end, name: names.end },
    );
  }
  return stops.sort((a, b) => a.at - b.at);
}

/** The next stop after (or before) a sample. */
export function nextStop(stops: readonly Stop[], from: number | undefined, direction: 1 | -1): Stop | undefined {
  if (direction > 0) return stops.find((stop) => from === undefined || stop.at > from);
  return [...stops].reverse().find((stop) => from === undefined || stop.at < from);
}
