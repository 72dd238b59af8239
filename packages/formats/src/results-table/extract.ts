import { metricFacts, parseUnit } from '@sthene/core';
import { type Cell, type Grid, textOf } from './grid.ts';
import { isLong, type ResultsMapping, type SoleRole, type ValueOf } from './mapping.ts';
import { cellNumber, isMissing } from './numbers.ts';
import type { Refused, RefusedCode } from './refused.ts';
import { own, type RowFacts, rowFacts } from './row-facts.ts';
import type { TablePerson, TableResults, TableValue } from './table-results.ts';
import { inUnitOf } from './unit-of-metric.ts';

const failed = /^#(div\/0!|ref!|value!|name\?|num!|null!|spill!|calc!|getting_data)$/i;
const shown = 40;

/** Reads a table row by row, so that whoever has other things to do may do them in between. */
export class ResultsReader {
  readonly #grid: Grid;
  readonly #mapping: ResultsMapping;
  readonly #today: string;
  readonly #places = new Map<SoleRole, number>();
  readonly #long: boolean;
  readonly #people = new Map<string, TablePerson>();
  readonly #values: TableValue[] = [];
  readonly #refused: Refused[] = [];
  readonly #leftOut = new Map<string, number>();
  #missing = 0;

  /** @param today the last day a result can be of, `YYYY-MM-DD` */
  constructor(grid: Grid, mapping: ResultsMapping, today: string) {
    this.#grid = grid;
    this.#mapping = mapping;
    this.#today = today;
    this.#long = isLong(mapping);
    mapping.columns.forEach(({ as }, c) => {
      if (as !== 'ignore' && as !== 'values') this.#places.set(as, c);
    });
  }

  /** Reads one row, 0-based as in the grid; what cannot be read is listed with its place, and the rest goes on. */
  read(r: number): void {
    const row = this.#grid.rows[r] ?? [];
    if (row.every((cell) => textOf(cell) === '')) return;
    const facts = rowFacts(row, r + 1, this.#places, this.#mapping, this.#today);
    if ('refused' in facts) {
      const column = facts.role && this.#places.get(facts.role);
      const found =
        textOf(row[column ?? 0]) ||
        row
          .map(textOf)
          .filter((text) => text !== '')
          .join(' ');
      this.#refuse(facts.refused, r, column, column === undefined ? found : textOf(row[column]));
      return;
    }
    const before = this.#values.length;
    if (this.#long) this.#readLong(row, r, facts);
    else
      this.#mapping.columns.forEach((role, c) => {
        if (role.as === 'values') this.#take(row[c], r, c, facts, role);
      });
    if (this.#values.length > before && !this.#people.has(facts.who.key)) this.#people.set(facts.who.key, facts.who);
  }

  get results(): TableResults {
    return {
      people: [...this.#people.values()],
      values: this.#values,
      refused: this.#refused,
      missing: this.#missing,
      leftOut: Object.fromEntries(this.#leftOut),
    };
  }

  #readLong(row: readonly Cell[], r: number, facts: RowFacts): void {
    const at = (role: SoleRole) => this.#places.get(role) as number;
    const name = textOf(row[at('metric')]);
    const metric = own(this.#mapping.metrics, name);
    const cell = row[at('value')];
    if (metric === '') {
      if (!isMissing(textOf(cell))) this.#leftOut.set(name, (this.#leftOut.get(name) ?? 0) + 1);
      return;
    }
    const written = this.#places.has('unit') ? textOf(row[at('unit')]) : '';
    const unit = written === '' ? own(this.#mapping.units, name) : parseUnit(written)?.code;
    if (unit === undefined) this.#refuse('cell-unit-unknown', r, at('unit'), written);
    else this.#take(cell, r, at('value'), facts, { metric, unit });
  }

  #take(cell: Cell | undefined, r: number, c: number, facts: RowFacts, role: Role): void {
    const value = this.#valueOf(cell, c, facts, r, role);
    if (value === 'missing') this.#missing++;
    else if ('code' in value) this.#refuse(value.code, r, c, value.found);
    else this.#values.push(value);
  }

  #valueOf(
    cell: Cell | undefined,
    c: number,
    facts: RowFacts,
    r: number,
    role: Role,
  ): TableValue | 'missing' | { code: RefusedCode; found: string } {
    const text = textOf(cell);
    if (isMissing(text)) return 'missing';
    if (failed.test(text)) return { code: 'cell-formula-error', found: text };
    if (typeof cell === 'object' && cell.merged) return { code: 'cell-merged', found: text };
    const number =
      typeof cell === 'object' && cell.number !== undefined ? ofSheet(cell) : cellNumber(text, this.#mapping.decimal);
    if (number === undefined) return { code: 'cell-not-a-number', found: text };
    const from = number.unit ?? role.unit;
    const converted = inUnitOf(role.metric, number.value, from);
    if (typeof converted === 'string')
      return { code: converted, found: number.unit === undefined ? `${text} ${from}`.trim() : text };
    const { who, position: said, of, ...when } = facts;
    const position = role.trial ?? said;
    return {
      row: r + 1,
      column: c + 1,
      person: who.key,
      ...when,
      ...(position === undefined ? {} : { position }),
      of: role.of ?? of ?? (position === undefined ? this.#mapping.of : 'trial'),
      metric: role.metric,
      ...converted,
      given: { value: text, unit: from },
    };
  }

  #refuse(code: RefusedCode, r: number, column: number | undefined, found: string): void {
    this.#refused.push({
      code,
      row: r + 1,
      ...(column === undefined ? {} : { column: column + 1 }),
      found: found.length > shown ? `${found.slice(0, shown - 1)}\u2026` : found,
    });
  }
}

interface Role {
  readonly metric: string;
  readonly unit: string;
  readonly trial?: number | undefined;
  readonly of?: ValueOf | undefined;
}

/** Reads every value of a table at once. */
export function readResultsTable(grid: Grid, mapping: ResultsMapping, today: string): TableResults {
  const reader = new ResultsReader(grid, mapping, today);
  for (let r = mapping.first - 1; r < grid.rows.length; r++) reader.read(r);
  return reader.results;
}

/** A number of a spreadsheet, with the unit its format says. */
const ofSheet = (cell: Exclude<Cell, string>) => ({
  value: cell.number as number,
  ...(cell.unit === undefined ? {} : { unit: cell.unit }),
});

/** Metrics that a mapping names and that are not ours; a mapping from elsewhere may name any. */
export const unknownMetrics = (mapping: ResultsMapping): string[] =>
  [
    ...mapping.columns.flatMap((role) => (role.as === 'values' ? [role.metric] : [])),
    ...Object.values(mapping.metrics),
  ].filter((id) => id !== '' && metricFacts.get(id) === undefined);
