import { forceVelocityFigure } from '../figure/force-velocity.ts';
import type { BatteryInput, ProfileFacts, ProfileLackFacts } from '../input/battery.ts';
import type { Block, Fact } from '../model/document.ts';
import type { Pen } from './frame.ts';

/** The force-velocity profile with what it rests on; or, of somebody who jumped with loads, why there is none. */
export function profileBlocks({ profile, profileLack: lack }: BatteryInput, pen: Pen): Block[] {
  const why = lack === undefined ? undefined : lackText(lack, pen);
  if (profile !== undefined) return [profileBlock(profile, why, pen)];
  if (why === undefined || lack?.reason === 'no-loads') return [];
  return [{ kind: 'paragraph', text: `${pen.words.battery.profile}: ${why}.`, style: 'small' }];
}

function lackText({ reason, loads, needed, loadMissing }: ProfileLackFacts, { words }: Pen): string {
  const w = words.battery;
  return [w.profileLack[reason](loads, needed), ...(loadMissing === 0 ? [] : [w.loadMissing(loadMissing)])].join('; ');
}

function profileBlock({ points, line, pushOff, pushOffFrom }: ProfileFacts, why: string | undefined, pen: Pen): Block {
  const { words, numbers } = pen;
  const w = words.battery;
  const legend = [
    ...(line === undefined ? [] : [w.profileLegend(numbers.fixed(line.r2, 3), points.length)]),
    ...(line?.accepted === false ? [w.profileLoose] : []),
    ...(why === undefined ? [] : [why]),
  ].join('; ');
  const figure = forceVelocityFigure(
    {
      points: points.map(({ load, force, velocity }) => ({ force, velocity, said: w.load(numbers.short(load)) })),
      line,
      caption: legend === '' ? `${w.profile}.` : `${w.profile}. ${legend}.`,
      alt: w.profileAlt(
        points.length,
        points
          .map(
            ({ load, force, velocity }) =>
              `${w.load(numbers.short(load))}: ${numbers.quantity(force, 'N')}, ${numbers.quantity(velocity, 'm/s')}`,
          )
          .join('; '),
      ),
    },
    numbers,
  );
  const range = (which: 'f0' | 'v0' | 'powerMax', unit: string): Fact | undefined =>
    line && {
      name: w.facts[which],
      value: numbers.quantity(line[which], unit),
      note: `95\u00a0%: ${numbers.range(line.intervals[which].low, line.intervals[which].high, unit, words.common.to)}`,
    };
  const facts = [range('f0', 'N'), range('v0', 'm/s'), range('powerMax', 'W')].flatMap((one) => one ?? []);
  return {
    kind: 'columns',
    shares: [0.52, 0.48],
    columns: [
      [{ kind: 'figure', figure }],
      [
        { kind: 'heading', text: w.profile },
        {
          kind: 'facts',
          items: [
            ...facts,
            ...(line === undefined ? [] : [{ name: w.facts.r2, value: numbers.fixed(line.r2, 3) }]),
            { name: w.facts.loads, value: points.map(({ load }) => w.load(numbers.short(load))).join(', ') },
            {
              name: w.facts.pushOff,
              value: `${numbers.fixed(100 * pushOff, 1)}\u00a0cm`,
              note: w.pushOffFrom[pushOffFrom],
            },
          ],
        },
        { kind: 'paragraph', text: w.profileSource, style: 'small' },
      ],
    ],
  };
}
