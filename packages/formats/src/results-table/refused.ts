/** Why a cell or a row was left out, as data; the words stand beside each code. */
export type RefusedCode = keyof typeof refusedWords;

/** A cell or row that was left out; the others go on. */
export interface Refused {
  readonly code: RefusedCode;
  /** 1-based row of the file. */
  readonly row: number;
  /** 1-based column; absent where the whole row is meant. */
  readonly column?: number;
  /** What stands there, cut to forty characters. */
  readonly found: string;
}

export const refusedWords = {
  'cell-not-a-number': {
    means: 'This cell should hold a number and holds something else.',
    next: 'Correct it in the table, or leave it out.',
  },
  'cell-formula-error': {
    means: 'The formula of this cell failed.',
    next: 'Mend the formula where the table was made and save it again.',
  },
  'cell-merged': {
    means: 'This cell is part of a merged block; its value is taken once, from the first cell.',
    next: 'Split the block in the table if each cell has a value of its own.',
  },
  'cell-unit-unknown': {
    means: 'The unit is not known.',
    next: 'Write it as in SI or UCUM (N, kN, kgf, N/s), or choose the unit of the column.',
  },
  'cell-unit-unfit': {
    means: 'The unit measures something else than this metric.',
    next: 'Choose another metric or another unit for the column.',
  },
  'row-without-person': {
    means: 'The row names nobody.',
    next: 'Write the code or the name into each row; a name is not carried down.',
  },
  'row-is-a-summary': {
    means: 'The row looks like a total, a mean or another summary over people.',
    next: 'Nothing has to be done; it is no result of anybody.',
  },
  'row-without-day': {
    means: 'The row has no day of the test.',
    next: 'Fill the day in, or choose the column that has it.',
  },
  'day-not-readable': {
    means: 'The day cannot be read in the chosen order.',
    next: 'Write it as year-month-day, or choose another order.',
  },
  'day-in-the-future': {
    means: 'The day has not come yet.',
    next: 'Check the order of day and month.',
  },
  'trial-not-readable': {
    means: 'The number of the trial is not a whole number from 1 to 99.',
    next: 'Correct it, or leave the column out.',
  },
  'of-not-known': {
    means: 'It is not said in known words whether this is a trial, a mean or a best.',
    next: 'Write trial, mean or best, or leave the column out.',
  },
  'test-left-out': {
    means: 'The test of this row was left out.',
    next: 'Choose which of our tests it is, where it is one.',
  },
  'method-missing': {
    means: 'The row names no method, though a column has it.',
    next: 'Write the method, or "not known".',
  },
  'text-too-long': {
    means: 'The text is longer than 200 characters.',
    next: 'Shorten it.',
  },
} as const;

export const refusedCodes = Object.keys(refusedWords) as RefusedCode[];
