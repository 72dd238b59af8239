import { forceVelocityFigure } from '../figure/force-velocity.ts';
import { ratioLanes } from '../figure/ratio-lanes.ts';
import type { BatteryInput, ProfileFacts, RatioFacts } from '../input/battery.ts';
import type { ReportFrame } from '../input/common.ts';
import type { Block, Fact, ReportDocument } from '../model/document.ts';
import { ratiosTable, ratioText, testsTable } from './battery-tables.ts';
import { documentOf, newestOf, type Pen, penOf } from './frame.ts';
import { ageOn, asMinor, tellsMass } from './minors.ts';

/**
 * The tests of one athlete that belong together, on one page: each test by its headline value, each ratio beside both of its sides and their
 * error, the force-velocity profile, and what none of it says. Nothing is worked out here. Of somebody under 18 it holds nothing that tells
 * body mass: no value for each kilogram, and no net force beside a gross one.
 */
export function batteryReport(input: BatteryInput, frame: ReportFrame): ReportDocument {
  const pen = penOf(frame);
  const { words, dates, numbers } = pen;
  const w = words.battery;
  const { person, ratios, profile } = input;
  const dated = newestOf([
    ...input.tests.map(({ at }) => at),
    ...ratios.flatMap(({ current }) => current?.at ?? []),
    ...(profile === undefined ? [] : [profile.at]),
  ]);
  const age = ageOn(person.birthDate, dated, dates);
  const young = asMinor(age, frame);
  const tests = input.tests.filter((one) => !(young && tellsMass({ id: one.metric, unit: one.unit })));
  const given = ratios.filter(({ current }) => current !== undefined);
  const net = given.some(({ current }) => current?.components.some(({ metric }) => metric === 'peak_force_net'));
  const small = (text: string): Block => ({ kind: 'paragraph', text, style: 'small' });
  const blocks: Block[] = [
    { kind: 'paragraph', text: w.lead(tests.length, dates.day(dated), given.length), style: 'lead' },
    small(w.apart(numbers.fixed(input.apart, 0))),
    { kind: 'table', table: testsTable(tests, pen) },
    ...(given.length === 0 ? [] : [lanes(given, pen)]),
    { kind: 'table', table: ratiosTable(ratios, young, pen) },
    ...mindOf(given, pen).map(small),
    ...(profile === undefined ? [] : [profileBlock(profile, pen)]),
    { kind: 'heading', text: w.notice },
    ...w.notices.map(small),
    small(w.errors),
    small([...new Set(given.map(({ source }) => source))].join('; ')),
    ...(young && net ? [small(w.netWithheld)] : []),
    ...(age === 'minor' ? [small(words.athlete.minor)] : young ? [small(words.athlete.unknownAge)] : []),
  ];
  return documentOf(pen, {
    title: w.title,
    subject: `${person.name} (${person.code})`,
    blocks: blocks.filter((block) => block.kind !== 'paragraph' || block.text !== ''),
    dated,
    onePage: true,
    file: [person.code, 'battery', dates.iso(dated)],
  });
}

function lanes(given: readonly RatioFacts[], { words, numbers }: Pen): Block {
  const w = words.battery;
  const shown = given.flatMap(({ id, unit, limits, current }) => {
    if (current === undefined) return [];
    return [
      {
        ...{ name: w.names[id], value: current.value, limits, said: ratioText(current.value, unit, numbers) },
        ...{ low: current.interval?.low, high: current.interval?.high },
        limitText: (limit: number) => ratioText(limit, unit, numbers),
      },
    ];
  });
  const alt = w.figureAlt(shown.map(({ name, said }) => `${name}: ${said}`).join('; '));
  return { kind: 'figure', figure: ratioLanes(shown, { caption: `${w.figure}. ${w.figureLegend}`, alt }) };
}

/** What has to be kept in mind of each ratio, a sentence each. */
function mindOf(given: readonly RatioFacts[], { words }: Pen): string[] {
  const w = words.battery;
  return given.flatMap(({ id, current }) =>
    current === undefined || current.cautions.length === 0
      ? []
      : [w.mind(w.names[id], current.cautions.map((one) => w.caution[one]).join('; '))],
  );
}

function profileBlock({ points, line }: ProfileFacts, { words, numbers }: Pen): Block {
  const w = words.battery;
  const legend =
    line === undefined
      ? w.profileNone
      : [w.profileLegend(numbers.fixed(line.r2, 3), points.length), ...(line.accepted ? [] : [w.profileLoose])].join(
          '; ',
        );
  const figure = forceVelocityFigure(
    {
      points: points.map(({ load, force, velocity }) => ({ force, velocity, said: w.load(numbers.short(load)) })),
      line,
      caption: `${w.profile}. ${legend}.`,
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
          ],
        },
      ],
    ],
  };
}
