import { describe, expect, it } from 'vitest';
import { flashSize } from './flash-size.ts';

/** Lines a text takes where each holds so many letters. */
function linesOf(text: string, letters: number): number {
  let [lines, used] = [1, 0];
  for (const { length } of text.split(' ')) {
    if (used > 0 && used + 1 + length > letters) [lines, used] = [lines + 1, 0];
    used += (used > 0 ? 1 : 0) + length;
  }
  return lines;
}

describe('flashSize', () => {
  it('gives a count the whole screen', () => {
    expect(flashSize('3')).toEqual({ '--letters': 1, '--lines': 1 });
  });
  it('has room for every line of a sentence, and for its longest word', () => {
    for (const text of [
      'Push',
      'Push into the ground',
      'Fast and hard, as fast as you ever can',
      'Incontrovertibly now',
      'a b c',
    ]) {
      const { '--letters': letters, '--lines': lines } = flashSize(text);
      for (const word of text.split(' ')) expect(word.length).toBeLessThanOrEqual(letters);
      expect(linesOf(text, letters), text).toBeLessThanOrEqual(lines);
    }
  });
});
