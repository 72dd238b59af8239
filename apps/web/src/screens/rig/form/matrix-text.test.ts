import { describe, expect, it } from 'vitest';
import { matrixCells, matrixOf, matrixText } from './matrix-text.ts';

const two = [
  [2503.1, -0.5],
  [0, 1e-7],
];

describe('a matrix as it is pasted', () => {
  it.each([
    ['tabs, from a table', '2503.1\t-0.5\r\n0\t1e-7\r\n'],
    ['tabs with decimal commas', '2503,1\t-0,5\n0\t1e-7'],
    ['tabs behind the last cell', '2503.1\t-0.5\t\n0\t1e-7\t\n'],
    ['semicolons with decimal commas', '2503,1; -0,5\n0; 1e-7;'],
    ['commas', '2503.1,-0.5\n0,1e-7'],
    ['commas and blanks', '2503.1, -0.5,\n0, 1e-7'],
    ['blanks', '  2503.1   -0.5\n\n 0  1e-7'],
    ['blanks with decimal commas', '2503,1 -0,5\n0 1e-7'],
    ['brackets', '[[2503.1, -0.5], [0, 1e-7]]'],
    ['brackets over lines', '[[ 2503.1 -0.5 ]\n [ 0 1e-7 ]]'],
    ['a typographic minus', '2503.1 \u22120.5\n0 1e\u22127'],
  ])('between %s', (_, text) => expect(matrixOf(text)).toEqual(two));

  it('keeps what is no number as it was written, at its place', () => {
    expect(matrixOf('1;N/A\n;4')).toEqual([
      [1, 'N/A'],
      ['', 4],
    ]);
    // A thousands separator would make another number of it.
    expect(matrixOf('1,250.5\t2')).toEqual([['1,250.5', 2]]);
  });

  it('is nothing while nothing is written, and comes back as it was kept', () => {
    expect(matrixCells(' \n\n')).toEqual([]);
    expect(matrixOf(matrixText(two))).toEqual(two);
    expect(matrixOf(matrixText([[0.1]]))).toEqual([[0.1]]);
  });
});
