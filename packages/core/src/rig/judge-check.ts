import type { Outcome } from '../outcome.ts';
import { type CellFigures, cellFigures } from './against-cell.ts';
import { type BalanceFigures, balanceFigures } from './balance.ts';
import type { RigCheckDocument } from './check-document.ts';
import { chained, correctionOf, type PlateCorrection } from './correction.ts';
import { type JudgedQuantity, judged, withinMasses, worstLoads } from './judged-quantity.ts';
import type { RigLimit, RigQuantity } from './limits.ts';
import { type PlateFigures, plateFigures } from './plate-figures.ts';
import { type CheckShortfall, shortfallsOf } from './shortfalls.ts';
import { type SpotFigures, spotFigures } from './spot-check.ts';
import { plateUncertainty, type RigUncertainty, sumUncertainty } from './uncertainty.ts';

/** `passes`; `look`: within limits where it counts, but somebody should look; `fails`; `incomplete`: nothing can be said yet. */
export const rigVerdicts = ['passes', 'look', 'fails', 'incomplete'] as const;
export type RigVerdict = (typeof rigVerdicts)[number];

/** What a check found. */
export interface RigCheckResult {
  /** Version of the rules below; a changed rule is a new number beside this one. */
  readonly rules: 1;
  readonly verdict: RigVerdict;
  readonly quantities: readonly JudgedQuantity[];
  /** What the check lacks, and whether it still says anything without. */
  readonly shortfalls: readonly CheckShortfall[];
  readonly plates: readonly PlateFigures[];
  readonly spots: readonly SpotFigures[];
  readonly balance?: BalanceFigures;
  readonly cell?: CellFigures;
  /** Largest force every plate was checked to, N; 0 without a load. */
  readonly checkedTo: number;
  readonly uncertainty?: {
    readonly rig: RigUncertainty;
    readonly plates: readonly (RigUncertainty & { readonly plate: string })[];
  };
  /** What would put the plates right, where their line is known; with what was in force already in it. */
  readonly correction: readonly PlateCorrection[];
}

/** Judges a check: figures of every plate, each against its limit, and what it all comes to. */
export function judgeCheck(document: RigCheckDocument): RigCheckResult {
  const plates = document.plates.map((plate) => plateFigures(plate, document.readings));
  const spots = document.plates.flatMap((plate) => given(spotFigures(plate, document.readings)));
  const [balance] = given(balanceFigures(document.balance));
  const [cell] = given(cellFigures(document.cell));
  const limit = new Map(document.limits.map((one) => [one.id, one]));
  const quantities = [
    ...plates.flatMap((figures) => ofPlate(figures, limit)),
    ...spots.flatMap(({ plate, spread }) => judged('spots', spread, limit, { plate })),
    ...document.rest.flatMap(({ plate, noise, mains }) => [
      ...judged('noise', noise, limit, { plate }),
      ...judged('mains', Math.max(0, ...mains.map(({ amplitude }) => amplitude)), limit, { plate }),
    ]),
    ...document.taps.flatMap(({ plate, frequency }) => judged('frequency', frequency, limit, { plate })),
    ...(balance === undefined ? [] : judged('balance', balance.difference, limit)),
    ...(cell === undefined ? [] : judged('cell', 100 * (cell.line.slope - 1), limit)),
  ];
  const shortfalls = shortfallsOf(document, plates, limit);
  const known = plates.flatMap((figures) => {
    const own = plateUncertainty(figures, document.gravity.uncertainty);
    return own === undefined ? [] : [{ ...own, plate: figures.plate }];
  });
  const rig = known.length === plates.length ? sumUncertainty(known) : undefined;
  return {
    rules: 1,
    verdict: verdictOf(quantities, shortfalls),
    ...{ quantities, shortfalls, plates, spots },
    ...(balance === undefined ? {} : { balance }),
    ...(cell === undefined ? {} : { cell }),
    checkedTo: plates.length === 0 ? 0 : Math.min(...plates.map(({ largestLoad }) => largestLoad)),
    ...(rig === undefined ? {} : { uncertainty: { rig, plates: known } }),
    correction: plates.flatMap(({ plate, line }) => {
      if (!line.ok) return [];
      const before = document.corrected.find((one) => one.plate === plate);
      const found = correctionOf(plate, line.value);
      return [before === undefined ? found : chained(before, found)];
    }),
  };
}

function ofPlate(figures: PlateFigures, limit: ReadonlyMap<RigQuantity, RigLimit>): JudgedQuantity[] {
  const { plate, line } = figures;
  const of = (id: RigQuantity, value: number | undefined, load?: number) =>
    value === undefined ? [] : judged(id, value, limit, { plate, ...(load === undefined ? {} : { load }) });
  const { relative, small, hysteresis, spread } = worstLoads(figures.loads);
  const top = figures.loads.at(-1);
  const share = top === undefined || top.load === 0 ? 0 : (200 * top.loadUncertainty) / top.load;
  const known = (found: JudgedQuantity[], expanded: number) => found.map((one) => withinMasses(one, expanded));
  return [
    ...(line.ok ? [...known(of('gain', 100 * (line.value.slope - 1)), share), ...of('offset', line.value.offset)] : []),
    ...of('linearity', figures.linearity),
    ...of('hysteresis', figures.hysteresis, hysteresis?.load),
    ...of('repeatability', figures.repeatability, spread?.load),
    ...known(of('relative-error', relative?.relativeError, relative?.load), share),
    ...known(of('small-load-error', small?.error, small?.load), 2 * (small?.loadUncertainty ?? 0)),
    ...of('zero-return', figures.zeroReturn?.share),
    ...of('zero-drift', figures.zeroDrift),
  ];
}

function verdictOf(quantities: readonly JudgedQuantity[], shortfalls: readonly CheckShortfall[]): RigVerdict {
  if (quantities.some(({ standing }) => standing === 'fail')) return 'fails';
  if (shortfalls.some(({ weight }) => weight === 'incomplete')) return 'incomplete';
  const look = quantities.some(({ standing }) => standing === 'look') || shortfalls.length > 0;
  return look ? 'look' : 'passes';
}

const given = <T>(outcome: Outcome<T>): T[] => (outcome.ok ? [outcome.value] : []);
