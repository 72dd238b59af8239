import type { Notice } from '@sthene/core';
import { quoteFound, textNotice } from './errors.ts';
import { type factList, factOf } from './facts.ts';
import { splitRecords } from './records.ts';
import type { BadCell } from './row-scanner.ts';

const MOST_LINES = 200;

/** What follows the rows that were read: a footer of words, or rows cut off behind a wrong cell. */
export class Tail {
  rowsAfter = 0;
  bad: BadCell | undefined;
  private count = 0;
  private readonly lines: string[] = [];
  private readonly decode: (bytes: Uint8Array) => string;

  constructor(decode: (bytes: Uint8Array) => string) {
    this.decode = decode;
  }

  add(bad: BadCell, line: Uint8Array): void {
    this.bad ??= bad;
    this.count++;
    if (this.lines.length < MOST_LINES) this.lines.push(this.decode(line).replace(/[\r\n]+$/, ''));
  }

  /** Words in the first cell of the line and no rows of numbers behind it. */
  get isFooter(): boolean {
    return this.bad?.first === true && this.rowsAfter === 0;
  }

  /** Adds the footer's lines to the facts. */
  addFacts(facts: ReturnType<typeof factList>, delimiter: string): void {
    this.lines.forEach((line, i) => {
      const record = splitRecords(line, delimiter, true)[0];
      if (record !== undefined) facts.add(factOf(record, `line ${(this.bad?.row ?? 1) + i}`, (text) => text));
    });
  }

  /** Lines of a footer that were not kept. */
  get cut(): number {
    return this.count - this.lines.length;
  }

  /** Row, column and content of the wrong cell. */
  get message(): string {
    const { row, column, found } = this.bad!;
    return `Row ${row}, column ${column}: "${quoteFound(found)}" is not a number.`;
  }

  /** The notice of a partial reading. */
  notice(rows: number): Notice {
    const left =
      this.rowsAfter === 0 ? 'No rows of numbers follow.' : `${this.rowsAfter} rows of numbers after it were not read.`;
    return textNotice('text-cell-not-a-number', `${this.message} The ${rows} rows before it were read. ${left}`);
  }
}
