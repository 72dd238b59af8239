import type { PlateHistory } from '@sthene/core';
import { checkHistoryFigure } from '../figure/check-history.ts';
import type { PlatesInput } from '../input/plates.ts';
import type { Block } from '../model/document.ts';
import type { Pen } from './frame.ts';

/** Each plate over all checks up to this one; where there is but one it says so. */
export function checkHistoryBlocks({ history }: PlatesInput, pen: Pen): Block[] {
  const w = pen.words.plates.history;
  const shown = history.filter(({ points }) => points.length > 1);
  const heading: Block = { kind: 'heading', text: w.title };
  if (shown.length === 0) return [heading, { kind: 'paragraph', text: w.none }];
  return [
    heading,
    { kind: 'paragraph', text: w.help, style: 'small' },
    ...shown.map((one): Block => ({ kind: 'figure', figure: figureOf(one, pen) })),
  ];
}

function figureOf(one: PlateHistory, pen: Pen) {
  const { words, dates, numbers } = pen;
  const w = words.plates.history;
  const { plate, points } = one;
  const [from, to] = [dates.day(points[0]?.at ?? ''), dates.day(points.at(-1)?.at ?? '')];
  const newest = points.at(-1);
  const said = [
    ...(newest?.gain === undefined ? [] : [`${w.name.gain}: ${numbers.signed(newest.gain, 2)}`]),
    ...(newest?.zero === undefined ? [] : [`${w.name.zero}: ${numbers.signed(newest.zero, 2)}`]),
    ...(newest?.noise === undefined ? [] : [`${w.name.noise}: ${numbers.fixed(newest.noise, 2)}`]),
  ].join(', ');
  const caption = w.caption(plate, String(points.length), from, to);
  return checkHistoryFigure(one, { caption, alt: w.alt(caption, said), name: w.name }, pen);
}
