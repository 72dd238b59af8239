import type { AthleteInput } from '../input/athlete.ts';
import type { ChangeFacts } from '../input/common.ts';
import type { Fact } from '../model/document.ts';
import type { Valued } from './athlete-figure.ts';
import type { Pen } from './frame.ts';
import { scaleText } from './say.ts';

/** What the word rests on. */
export function factsOf(
  { metric, noise, scale, best }: AthleteInput,
  change: ChangeFacts | undefined,
  valued: readonly Valued[],
  { words, numbers, dates }: Pen,
): Fact[] {
  const f = words.athlete.facts;
  const { unit } = metric;
  const widest = change?.intervals.at(-1);
  const bestSession = valued.find(({ id }) => id === best);
  const [gain, loss] = metric.better === 'lower' ? [change?.less, change?.more] : [change?.more, change?.less];
  return [
    ...(widest
      ? [
          {
            name: f.interval,
            value: numbers.range(widest.low, widest.high, unit, words.common.to, true),
          },
        ]
      : []),
    ...(change && gain !== undefined && loss !== undefined
      ? [{ name: f.probabilities, value: [gain, change.within, loss].map(numbers.share).join(', ') }]
      : []),
    ...(noise.used
      ? [
          {
            name: f.error,
            value: scaleText(noise.used.value, scale, unit, numbers),
            note: f.errorOf(numbers.fixed(noise.used.df, 0)),
          },
        ]
      : []),
    ...(change?.rigs
      ? [
          {
            name: f.rigs,
            value:
              change.rigs.standard === undefined ? words.common.notKnown : numbers.quantity(change.rigs.standard, unit),
          },
        ]
      : []),
    {
      name: f.worthwhile,
      value: noise.worthwhile === undefined ? f.worthwhileNone : scaleText(noise.worthwhile, scale, unit, numbers),
    },
    ...(change
      ? [
          { name: f.confirmable, value: numbers.quantity(change.confirmable, unit), note: f.confirmableNote },
          { name: f.chance, value: f.chanceOf(numbers.fixed(100 * change.byChance, 1)) },
        ]
      : []),
    ...(bestSession
      ? [{ name: f.best, value: numbers.quantity(bestSession.value, unit), note: dates.short(bestSession.at) }]
      : []),
  ];
}
