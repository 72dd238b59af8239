import { loadErrorsFigure } from '../figure/load-errors.ts';
import type { ReportFrame } from '../input/common.ts';
import type { PlatesInput } from '../input/plates.ts';
import type { Block, Fact, ReportDocument } from '../model/document.ts';
import { none, type Table, text } from '../model/table.ts';
import { checkHistoryBlocks } from './check-history.ts';
import { documentOf, type Pen, penOf } from './frame.ts';

type Judged = PlatesInput['result']['quantities'][number];

const marks = { passes: '\u25cf', look: '\u25cb', fails: '\u00d7', incomplete: '?' } as const;

/** One check of a rig with known masses as a page to keep with the plates: verdict, figures against limits, readings, masses. */
export function platesReport(input: PlatesInput, frame: ReportFrame): ReportDocument {
  const pen = penOf(frame);
  const w = pen.words.plates;
  const { result } = input;
  const blocks: Block[] = [
    {
      kind: 'statement',
      mark: marks[result.verdict],
      word: w.verdict[result.verdict],
      value: result.checkedTo > 0 ? w.checkedTo(pen.numbers.quantity(result.checkedTo, 'N')) : '',
    },
    { kind: 'facts', items: factsOf(input, pen) },
    ...remarksOf(input, pen),
    // On the first page, beside the verdict it stands for, however long the tables are.
    { kind: 'paragraph', text: w.wording },
    { kind: 'paragraph', text: `${w.signature}: ${'_'.repeat(40)}`, style: 'lead' },
    { kind: 'heading', text: w.figures },
    { kind: 'table', table: quantityTable(input, pen) },
    ...result.plates.flatMap((plate) => figureOf(plate, input, pen)),
    ...checkHistoryBlocks(input, pen),
    ...uncertaintyOf(input, pen),
    { kind: 'heading', text: w.loads },
    { kind: 'table', table: loadTable(input, pen) },
    ...spotsOf(input, pen),
    { kind: 'heading', text: w.masses },
    { kind: 'table', table: massTable(input, pen) },
    { kind: 'paragraph', text: w.hash(input.sha256), style: 'small' },
  ];
  return documentOf(pen, {
    title: w.title,
    subject: w.subject(input.rig.letter, input.rig.name),
    blocks,
    dated: input.at,
    onePage: false,
    file: ['plates', input.rig.name, pen.dates.iso(input.at)],
  });
}

function factsOf(input: PlatesInput, { words, numbers, dates }: Pen): Fact[] {
  const w = words.plates;
  const { gravity, airDensity, corrected } = input.document;
  const { latitude, altitude } = gravity;
  const fromPlace = gravity.from === 'place' && latitude !== undefined && altitude !== undefined;
  const share = (gain: number) => numbers.signed(100 * (gain - 1), 2);
  const correction = corrected.map(({ plate, gain }) => w.corrected(plate, share(gain))).join(', ');
  return [
    { name: w.facts.at, value: dates.moment(input.at) },
    { name: w.facts.by, value: input.by },
    { name: w.facts.sources, value: input.sources.join(', ') },
    {
      name: w.facts.gravity,
      value: `${numbers.fixed(gravity.value, 5)}\u00a0m/s²`,
      note: fromPlace ? w.place(numbers.short(latitude), numbers.fixed(altitude, 0)) : w.entered,
    },
    { name: w.facts.air, value: `${numbers.short(airDensity)}\u00a0kg/m³` },
    { name: w.facts.series, value: String(Math.max(0, ...input.result.plates.map(({ series }) => series))) },
    { name: w.facts.correction, value: correction || w.noCorrection },
    ...(input.due === undefined ? [] : [{ name: w.facts.due, value: dates.day(input.due) }]),
  ];
}

function remarksOf({ result, note }: PlatesInput, { words, numbers }: Pen): Block[] {
  const w = words.plates;
  const items = result.shortfalls.map(({ code, plate, got = 0, wanted = 0 }) => {
    const said = w.shortfall[code](numbers.short(got), numbers.short(wanted));
    return plate === undefined ? said : `${plate}: ${said}`;
  });
  return [
    ...(items.length === 0
      ? []
      : [{ kind: 'heading', text: w.remarks } as const, { kind: 'list', items, ordered: false } as const]),
    ...(note === '' ? [] : [{ kind: 'paragraph', text: note, language: 'und' } as const]),
  ];
}

/** Errors that have a direction are given with their sign. */
const signed: ReadonlySet<Judged['id']> = new Set([
  'gain',
  'offset',
  'relative-error',
  'small-load-error',
  'zero-return',
  'zero-drift',
  'cell',
]);

function quantityTable({ result }: PlatesInput, { words, numbers }: Pen): Table {
  const w = words.plates;
  const unit = ({ limit }: Judged) => (limit.unit === '% of the largest load' ? w.ofLargest : limit.unit);
  const decimals = ({ limit }: Judged) => (limit.unit === 'Hz' ? 0 : 2);
  const found = (one: Judged) => {
    const said = signed.has(one.id)
      ? numbers.signed(one.value, decimals(one))
      : numbers.fixed(one.value, decimals(one));
    return { text: `${said}\u00a0${unit(one)}`, value: one.value };
  };
  return {
    id: 'figures',
    title: w.figures,
    columns: [
      { id: 'quantity', title: w.head.what, align: 'left' },
      { id: 'plate', title: w.head.plate, align: 'left' },
      { id: 'found', title: w.head.value, align: 'right' },
      { id: 'limit', title: w.head.limit, align: 'right' },
      { id: 'standing', title: w.head.standing, align: 'left' },
    ],
    rows: result.quantities.map((one) => [
      text(w.quantity[one.id], one.id),
      text(one.plate ?? w.whole),
      found(one),
      {
        text: `${one.limit.good === 'at-most' ? '\u2264' : '\u2265'}\u00a0${numbers.fixed(one.limit.value, decimals(one))}\u00a0${unit(one)}`,
        value: one.limit.value,
      },
      text(w.standing[one.standing], one.standing),
    ]),
    note: w.limitNote,
  };
}

function figureOf(plate: PlatesInput['result']['plates'][number], { document }: PlatesInput, pen: Pen): Block[] {
  const { words, numbers } = pen;
  const w = words.plates;
  const known = plate.loads.flatMap(({ load, error }) => (error === undefined ? [] : [{ load, error }]));
  const [first, ...rest] = known;
  if (plate.largestLoad === 0 || first === undefined) return [];
  const worst = rest.reduce((a, b) => (Math.abs(b.error) > Math.abs(a.error) ? b : a), first);
  const figure = loadErrorsFigure(
    plate,
    document.limits,
    {
      caption: w.errors(plate.plate),
      alt: w.errorsAlt(plate.plate, numbers.difference(worst.error, 'N'), numbers.quantity(worst.load, 'N')),
    },
    numbers,
  );
  return [{ kind: 'figure', figure }];
}

function uncertaintyOf({ result }: PlatesInput, { words, numbers }: Pen): Block[] {
  const { uncertainty } = result;
  if (uncertainty === undefined) return [];
  const w = words.plates;
  const { gain, repeatability, linearity, largestForce } = uncertainty.rig;
  return [
    { kind: 'heading', text: w.uncertainty },
    {
      kind: 'paragraph',
      text: w.uncertaintyText(
        numbers.fixed(100 * gain, 3),
        numbers.fixed(repeatability, 2),
        numbers.fixed(linearity, 2),
        numbers.quantity(largestForce, 'N'),
      ),
    },
  ];
}

function loadTable({ result }: PlatesInput, { words, numbers }: Pen): Table {
  const w = words.plates;
  const column = (id: keyof typeof w.loadHead) => ({
    id,
    title: id === 'plate' ? w.loadHead.plate : `${w.loadHead[id]} (N)`,
    align: id === 'plate' ? ('left' as const) : ('right' as const),
    ...(id === 'plate' ? {} : { unit: 'N' }),
  });
  return {
    id: 'loads',
    title: w.loads,
    columns: (['plate', 'load', 'up', 'down', 'error', 'hysteresis'] as const).map(column),
    rows: result.plates.flatMap(({ plate, loads }) =>
      loads.map(({ load, up, down, error }) => [
        text(plate),
        numbers.fixedCell(load, 2),
        numbers.fixedCell(up, 2),
        numbers.fixedCell(down, 2),
        numbers.fixedCell(error, 2),
        numbers.fixedCell(up === undefined || down === undefined ? undefined : down - up, 2),
      ]),
    ),
  };
}

/** What one load showed at each of the five places, and how far that is from the centre: a weak corner has a name. */
function spotsOf({ result }: PlatesInput, { words, numbers }: Pen): Block[] {
  const w = words.plates;
  if (result.spots.length === 0) return [];
  const table: Table = {
    id: 'places',
    title: w.places,
    columns: [
      { id: 'plate', title: w.loadHead.plate, align: 'left' },
      { id: 'place', title: w.placeHead.place, align: 'left' },
      { id: 'load', title: `${w.loadHead.load} (N)`, unit: 'N', align: 'right' },
      { id: 'reading', title: `${w.placeHead.reading} (N)`, unit: 'N', align: 'right' },
      { id: 'from-centre', title: `${w.placeHead.fromCentre} (%)`, unit: '%', align: 'right' },
    ],
    rows: result.spots.flatMap(({ plate, load, bySpot }) => {
      const centre = bySpot.find(({ spot }) => spot === 'centre')?.reading;
      return bySpot.map(({ spot, reading }) => [
        text(plate),
        text(w.placeName[spot], spot),
        numbers.fixedCell(load, 2),
        numbers.fixedCell(reading, 2),
        numbers.fixedCell(centre === undefined ? undefined : 100 * (reading / centre - 1), 2),
      ]);
    }),
  };
  return [
    { kind: 'heading', text: w.places },
    { kind: 'table', table },
  ];
}

function massTable({ document }: PlatesInput, { words, numbers }: Pen): Table {
  const w = words.plates;
  return {
    id: 'masses',
    title: w.masses,
    columns: [
      { id: 'name', title: w.massHead.name, align: 'left' },
      { id: 'mass', title: `${w.massHead.mass} (kg)`, unit: 'kg', align: 'right' },
      { id: 'known', title: w.massHead.known, align: 'left' },
      { id: 'within', title: `${w.massHead.within} (g)`, unit: 'g', align: 'right' },
      { id: 'reference', title: w.massHead.reference, align: 'left' },
    ],
    rows: document.masses.map(({ name, mass, known, within, reference }) => [
      text(name),
      { text: numbers.short(mass), value: mass },
      text(w.known[known], known),
      known === 'printed' ? none : { text: numbers.short(1000 * within), value: 1000 * within },
      text(reference ?? ''),
    ]),
  };
}
