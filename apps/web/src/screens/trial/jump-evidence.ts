import type { Band, Evidence, Level, Point, Vertical } from '../../curve/model.ts';
import { ruleWords, words } from '../../words/index.ts';
import { onsetOf, type Result } from './numbers.ts';
import type { Stop } from './stops.ts';

type Jump = NonNullable<Result['jump']>;

interface Writing {
  /** Instant of a sample, s. */
  readonly seconds: (sample: number) => string;
  /** A value with its unit. */
  readonly write: (value: number, unit: string) => string;
  readonly unit: string;
}

/**
 * The standing evidence of a jump: the quiet second, the phases, take-off and touchdown, the largest force. Drawn from the result,
 * nothing is recomputed.
 */
export function jumpEvidence(result: Result, jump: Jump, whileMoving: boolean, writing: Writing): Evidence {
  const { seconds, write, unit } = writing;
  const t = words.curve.jump;
  const bands: Band[] = [];
  const verticals: Vertical[] = [];
  const points: Point[] = [];
  const levels: Level[] = [];
  const onset = onsetOf(result);
  if (jump.weighing.ok) {
    const { start, end, mean, sd } = jump.weighing.value;
    bands.push({ start, end, ink: 'band', label: t.weighing(write(mean, unit), write(sd, unit)) });
    levels.push({ start, end: jump.touchdown, force: mean, ink: 'ink-soft', label: t.weight });
  }
  if (onset && !whileMoving)
    verticals.push({
      ...{ at: onset.index, ink: 'pen', width: 1.6, priority: 100 },
      label: words.curve.onset(seconds(onset.index), ruleWords(onset.rule)),
    });
  for (const { id, start } of jump.phases)
    if (id === 'braking' || id === 'propulsion')
      verticals.push({ at: start, ink: 'ink-soft', dash: [2, 4], priority: 40, label: t.begins(t.phases[id]) });
  for (const contact of jump.contacts)
    bands.push({ start: contact.touchdown, end: contact.takeOff, ink: 'band', label: t.contact });
  verticals.push(
    { at: jump.takeOff, ink: 'ink-soft', dash: [6, 4], priority: 70, label: t.takeOff(seconds(jump.takeOff)) },
    {
      ...{ at: jump.touchdown, ink: 'ink-soft', dash: [6, 4], priority: 70, side: 'right' },
      label: t.touchdown(seconds(jump.touchdown)),
    },
  );
  if (jump.endOfLanding !== undefined)
    verticals.push({ at: jump.endOfLanding, ink: 'ink-soft', dash: [2, 4], priority: 35, side: 'right', label: t.end });
  if (jump.peakForce !== undefined)
    points.push({
      ...{ at: jump.peakForce.index, force: jump.peakForce.value, ink: 'ink', priority: 90, place: 'above' },
      label: words.curve.peak(write(jump.peakForce.value, unit)),
    });
  return { bands, verticals, points, levels };
}

/** The instants of a jump one can go to. */
export function jumpStops(result: Result, jump: Jump): Stop[] {
  const t = words.curve.jump;
  const onset = onsetOf(result);
  const stops: Stop[] = [];
  if (jump.weighing.ok) {
    const { start, end } = jump.weighing.value;
    stops.push({ at: start, name: words.curve.events.baseline }, { at: end - 1, name: words.curve.events.baselineEnd });
  }
  if (onset) stops.push({ at: onset.index, name: words.curve.events.onset });
  if (jump.firstTouchdown !== undefined) stops.push({ at: jump.firstTouchdown, name: t.firstTouchdown });
  for (const { id, start } of jump.phases)
    if (id === 'braking' || id === 'propulsion') stops.push({ at: start, name: t.begins(t.phases[id]) });
  if (jump.peakForce !== undefined) stops.push({ at: jump.peakForce.index, name: words.curve.events.peak });
  stops.push({ at: jump.takeOff, name: t.takeOffName }, { at: jump.touchdown, name: t.touchdownName });
  if (jump.endOfLanding !== undefined) stops.push({ at: jump.endOfLanding, name: t.end });
  return stops;
}

/** First and last sample of what belongs to the jump. */
export function jumpSpan(result: Result, jump: Jump): { readonly start: number; readonly end: number } {
  const start = jump.firstTouchdown ?? onsetOf(result)?.index ?? jump.takeOff;
  return { start, end: jump.endOfLanding ?? jump.touchdown };
}
