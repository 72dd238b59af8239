import { clockSeconds, isMissing } from './cells.ts';
import { numberAt, POWERS_OF_TEN } from './number.ts';

/** Rows a block holds at most. */
export const BLOCK_ROWS = 4096;

/** How cells become columns. */
export interface ScanPlan {
  /** Byte of the delimiter; 32 means runs of blanks, 0 a single column. */
  readonly delimiter: number;
  readonly decimal: number;
  /** For every column of the file its place among the stored columns, or -1. */
  readonly targets: Int32Array;
  /** For every column of the file 1 where cells are clock times. */
  readonly clocks: Uint8Array;
  readonly stored: number;
  /** Empty rows between data rows are missing samples (files without a time column). */
  readonly blankIsMissing: boolean;
}

/** The cell that ended a scan. */
export interface BadCell {
  readonly row: number;
  readonly column: number;
  readonly found: string;
  /** True when it was the first filled cell of its row, as in a footer. */
  readonly first: boolean;
}

const LF = 10;
const CR = 13;
const QUOTE = 34;

/**
 * Scans rows of numbers into blocks of columns; holds one block and nothing else.
 *
 * `values[c * BLOCK_ROWS + r]` is row r of stored column c, NaN where missing. The caller empties the block (`rows = 0`) when
 * `scan` returns with it full.
 */
export class RowScanner {
  readonly values: Float64Array;
  /** 1-based row of the file for every row of the block. */
  readonly rowNumbers = new Float64Array(BLOCK_ROWS);
  rows = 0;
  /** Rows of the file passed so far. */
  row: number;
  bad: BadCell | undefined;
  missingCells = 0;
  shortRows = 0;
  longRows = 0;
  firstShort = 0;
  firstLong = 0;
  private readonly plan: ScanPlan;
  private pending = 0;
  private readonly end = new Int32Array(1);
  private readonly blank: number;
  /** Targets of the columns of plain numbers, -1 for all others. */
  private readonly plain: Int32Array;

  /** @param firstRow 1-based row number of the first row that will be scanned */
  constructor(plan: ScanPlan, firstRow: number) {
    this.plan = plan;
    this.row = firstRow - 1;
    this.plain = plan.targets.map((target, column) => (plan.clocks[column] === 0 ? target : -1));
    this.values = new Float64Array(plan.stored * BLOCK_ROWS);
    // A tab between blanks counts as blank except where it is the delimiter.
    this.blank = plan.delimiter === 9 ? 32 : 9;
  }

  /**
   * Scans complete rows in `bytes[at, limit)`; the byte before `limit` must be a line break.
   *
   * @returns the position of the first byte not used: `limit`, or the start of a row when the block is full, a cell is bad
   * (`bad` is set), or a quoted cell goes on beyond `limit`
   */
  scan(bytes: Uint8Array, at: number, limit: number): number {
    const { delimiter, decimal, targets } = this.plan;
    const { values, end, blank, plain } = this;
    const width = targets.length;
    const blanks = delimiter === 32;
    let pos = at;
    while (pos < limit) {
      if (this.rows >= BLOCK_ROWS) return pos;
      const rowStart = pos;
      const row = this.rows;
      let column = 0;
      let filled = 0;
      let missing = 0;
      let extra = false;
      let c = bytes[pos]!;
      for (;;) {
        let d = c ^ 48;
        if (d >= 10) {
          while (c === 32 || c === blank) c = bytes[++pos]!;
          if (blanks && column > 0 && (c === LF || c === CR)) break;
          d = c ^ 48;
        }
        const target = column < width ? plain[column]! : -1;
        if (target >= 0) {
          let p = pos;
          if (c === 45) d = bytes[++p]! ^ 48;
          const first = p;
          let m = 0;
          while (d < 10) {
            m = (Math.imul(m, 10) + d) | 0;
            d = bytes[++p]! ^ 48;
          }
          let digits = p - first;
          let fraction = 0;
          if ((d ^ 48) === decimal) {
            const from = ++p;
            d = bytes[p]! ^ 48;
            while (d < 10) {
              m = (Math.imul(m, 10) + d) | 0;
              d = bytes[++p]! ^ 48;
            }
            fraction = p - from;
            digits += fraction;
          }
          const next = d ^ 48;
          if (digits > 0 && digits < 10 && (next === delimiter || next === LF || next === CR)) {
            const value = m / POWERS_OF_TEN[fraction]!;
            values[target * BLOCK_ROWS + row] = c === 45 ? -value : value;
            filled++;
            pos = p;
            c = next;
          } else {
            let value = numberAt(bytes, pos, decimal, end);
            p = end[0]!;
            let after = bytes[p]!;
            if (p > pos) while (after === 32 || after === blank) after = bytes[++p]!;
            const separated = blanks && p > end[0]!;
            if (
              p > pos &&
              Number.isFinite(value) &&
              (separated || after === delimiter || after === LF || after === CR)
            ) {
              filled++;
              pos = p;
            } else {
              const stop = this.oddCell(bytes, pos, limit, column);
              if (stop < 0) {
                if (stop === -1) this.row++;
                return rowStart;
              }
              value = this.oddValue;
              if (Number.isNaN(value)) missing++;
              if (this.oddFilled) filled++;
              pos = stop;
            }
            values[target * BLOCK_ROWS + row] = value;
            c = bytes[pos]!;
          }
        } else {
          const stop = this.oddCell(bytes, pos, limit, column);
          if (stop < 0) {
            if (stop === -1) this.row++;
            return rowStart;
          }
          const clock = column < width ? targets[column]! : -1;
          if (clock >= 0) {
            values[clock * BLOCK_ROWS + row] = this.oddValue;
            if (Number.isNaN(this.oddValue)) missing++;
          }
          if (this.oddFilled) {
            filled++;
            if (column >= width) extra = true;
          }
          pos = stop;
          c = bytes[pos]!;
        }
        column++;
        if (c === LF || c === CR) break;
        if (!blanks) {
          c = bytes[++pos]!;
        } else {
          while (c === 32 || c === 9) c = bytes[++pos]!;
        }
      }
      let after = pos + 1;
      if (c === CR && bytes[after] === LF) after++;
      if (filled === 0) {
        this.row++;
        if (this.plan.blankIsMissing && (column > 1 || width === 1)) this.pending++;
        pos = after;
        continue;
      }
      if (this.pending > 0) {
        this.emitPending();
        pos = rowStart;
        continue;
      }
      this.row++;
      this.missingCells += missing;
      if (column < width) this.fillShort(column, row);
      if (extra) {
        this.longRows++;
        if (this.firstLong === 0) this.firstLong = this.row;
      }
      this.rowNumbers[row] = this.row;
      this.rows = row + 1;
      pos = after;
    }
    return pos;
  }

  private oddValue = 0;
  private oddFilled = false;

  /**
   * A cell that is no plain number: quoted, missing, a clock time, not wanted, or wrong. Leaves its value in `oddValue`.
   * @returns the position of the separator behind it; -1 for a wrong cell, -2 when a quote does not close before `limit`
   */
  private oddCell(bytes: Uint8Array, at: number, limit: number, column: number): number {
    const { delimiter, decimal, targets, clocks } = this.plan;
    const wanted = column < targets.length && targets[column]! >= 0;
    let stop = at;
    let text: string | undefined;
    if (bytes[at] === QUOTE) {
      const close = this.closingQuote(bytes, at, limit);
      if (close === -2) return -2;
      if (close > 0) {
        text = wanted ? textOf(bytes, at + 1, close).replaceAll('""', '"') : '';
        stop = close + 1;
      }
    }
    for (;;) {
      const c = bytes[stop]!;
      if (c === delimiter || c === LF || c === CR || (delimiter === 32 && c === 9)) break;
      stop++;
    }
    this.oddValue = Number.NaN;
    this.oddFilled = stop > at;
    if (!wanted) return stop;
    const cell = (text ?? textOf(bytes, at, stop)).trim();
    this.oddFilled = cell !== '';
    if (isMissing(cell)) return stop;
    const value = clocks[column] === 1 ? clockSeconds(cell) : quotedNumber(text === undefined ? '' : cell, decimal);
    if (value !== undefined) {
      this.oddValue = value;
      return stop;
    }
    const found = cell.length > 60 ? cell.slice(0, 60) : cell;
    this.bad = { row: this.row + 1, column: column + 1, found, first: this.isFirst(bytes, at) };
    return -1;
  }

  /** Position of the closing quote, -1 when this quote is an ordinary character, -2 when it does not close before `limit`. */
  private closingQuote(bytes: Uint8Array, at: number, limit: number): number {
    let p = at + 1;
    while (p < limit) {
      if (bytes[p] !== QUOTE) p++;
      else if (bytes[p + 1] === QUOTE && p + 1 < limit) p += 2;
      else {
        let after = p + 1;
        while (bytes[after] === 32) after++;
        const c = bytes[after];
        return c === this.plan.delimiter || c === LF || c === CR || this.plan.delimiter === 32 ? p : -1;
      }
    }
    return this.atEnd ? -1 : -2;
  }

  /** Set by the caller when no more bytes follow: an open quote is then an ordinary character. */
  atEnd = false;

  /** True when only separators and blanks stand between the line's start and the cell. */
  private isFirst(bytes: Uint8Array, at: number): boolean {
    for (let p = at - 1; p >= 0; p--) {
      const c = bytes[p]!;
      if (c === LF || c === CR) return true;
      if (c !== 32 && c !== 9 && c !== this.plan.delimiter) return false;
    }
    return true;
  }

  private emitPending(): void {
    const count = Math.min(this.pending, BLOCK_ROWS - this.rows);
    for (let i = 0; i < count; i++, this.rows++) {
      for (let c = 0; c < this.plan.stored; c++) this.values[c * BLOCK_ROWS + this.rows] = Number.NaN;
      this.rowNumbers[this.rows] = this.row - this.pending + 1;
      this.pending--;
      this.missingCells += this.plan.stored;
    }
  }

  private fillShort(column: number, row: number): void {
    const { targets } = this.plan;
    for (let c = column; c < targets.length; c++) {
      const target = targets[c]!;
      if (target >= 0) this.values[target * BLOCK_ROWS + row] = Number.NaN;
    }
    this.shortRows++;
    if (this.firstShort === 0) this.firstShort = this.row;
  }
}

function textOf(bytes: Uint8Array, from: number, to: number): string {
  let text = '';
  const stop = Math.min(to, from + 200);
  for (let i = from; i < stop; i++) text += String.fromCharCode(bytes[i]!);
  return text;
}

const scratch = new Uint8Array(256);
const scratchEnd = new Int32Array(1);

function quotedNumber(cell: string, decimal: number): number | undefined {
  if (cell === '' || cell.length > 200) return undefined;
  for (let i = 0; i < cell.length; i++) scratch[i] = cell.charCodeAt(i) & 255;
  scratch[cell.length] = LF;
  const value = numberAt(scratch, 0, decimal, scratchEnd);
  return scratchEnd[0] === cell.length && Number.isFinite(value) ? value : undefined;
}
