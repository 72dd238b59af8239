import { overTimeFigure } from '../figure/over-time.ts';
import type { AthleteInput, AthleteSessionFacts } from '../input/athlete.ts';
import type { ChangeFacts } from '../input/common.ts';
import type { Block } from '../model/document.ts';
import type { Pen } from './frame.ts';

/** A session that has the value in the unit of the page. */
export type Valued = AthleteSessionFacts & { readonly value: number };

/** Every session as a point, the level before and the noise band about it. */
export function figureBlock(
  { best, metric }: AthleteInput,
  change: ChangeFacts | undefined,
  valued: readonly Valued[],
  title: string,
  { words, numbers, dates }: Pen,
): Block {
  const w = words.athlete;
  const [first, last] = [valued[0] as Valued, valued.at(-1) as Valued];
  const band = change && {
    value: change.value,
    low: change.band.low,
    high: change.band.high,
  };
  const keys = [...(band ? [w.band] : []), ...(valued.some(({ familiarisation }) => familiarisation) ? [w.first] : [])];
  const figure = overTimeFigure(
    {
      points: valued.map(({ id, at, value, familiarisation }) => ({
        at,
        value,
        first: familiarisation,
        best: id === best,
      })),
      unit: metric.unit,
      reference: band,
      newest: w.newest,
      best: w.best,
      caption: `${w.figure(title)}. ${keys.join('; ')}${keys.length > 0 ? '.' : ''}`,
      alt: w.figureAlt(
        title,
        valued.length,
        dates.day(first.at),
        dates.day(last.at),
        numbers.quantity(last.value, metric.unit),
        band ? w.figureBand(numbers.quantity(band.low, metric.unit), numbers.quantity(band.high, metric.unit)) : '',
      ),
    },
    { numbers, dates },
  );
  return { kind: 'figure', figure };
}
