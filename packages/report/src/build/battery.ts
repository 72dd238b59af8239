import { ratioLanes } from '../figure/ratio-lanes.ts';
import type { BatteryInput, RatioFacts } from '../input/battery.ts';
import type { ReportFrame } from '../input/common.ts';
import type { Block, ReportDocument } from '../model/document.ts';
import { profileBlocks } from './battery-profile.ts';
import { ofTrials, ratiosTable, ratioText, testsTable } from './battery-tables.ts';
import { documentOf, newestOf, type Pen, penOf } from './frame.ts';
import { ageOn, asMinor, tellsMass } from './minors.ts';

/**
 * The tests of one athlete that belong together, on one page: each test by its headline value, each ratio beside both of its sides and their
 * error, the force-velocity profile, and what none of it says. Nothing is worked out here. Of somebody under 18 it holds nothing that tells
 * body mass: no value for each kilogram; no bilateral index, from which and the gross forces body weight can be solved for; and no profile,
 * two points of which tell mass.
 */
export function batteryReport(input: BatteryInput, frame: ReportFrame): ReportDocument {
  const pen = penOf(frame);
  const { words, dates, numbers } = pen;
  const w = words.battery;
  const { person, profile } = input;
  const dated = newestOf([
    ...input.tests.map(({ at }) => at),
    ...input.ratios.flatMap(({ current }) => current?.at ?? []),
    ...(profile === undefined ? [] : [profile.at]),
  ]);
  const age = ageOn(person.birthDate, dated, dates);
  const young = asMinor(age, frame);
  const tests = input.tests.filter((one) => !(young && tellsMass({ id: one.metric, unit: one.unit })));
  const ratios = input.ratios.filter(({ id }) => !(young && id === 'bilateral_index'));
  const given = ratios.filter(({ current }) => current !== undefined);
  const trials = [...tests, ...given.flatMap(({ current }) => current?.components ?? [])].some(ofTrials);
  const small = (text: string): Block => ({ kind: 'paragraph', text, style: 'small' });
  const blocks: Block[] = [
    { kind: 'paragraph', text: w.lead(tests.length, dates.day(dated), given.length), style: 'lead' },
    small(w.apart(numbers.fixed(input.apart, 0))),
    { kind: 'table', table: testsTable(tests, pen) },
    ...(given.length === 0 ? [] : [lanes(given, pen)]),
    { kind: 'table', table: ratiosTable(ratios, pen) },
    ...mindOf(given, pen).map(small),
    ...(young ? [] : profileBlocks(input, pen)),
    { kind: 'heading', text: w.notice },
    ...w.notices.map(small),
    small(trials ? `${w.errors} ${w.errorsOfTrials}` : w.errors),
    small([...new Set(given.map(({ source }) => source))].join('; ')),
    ...(young ? [small(w.massWithheld)] : []),
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
