/**
 * How a cue fills a screen whatever its words are: letters in a line and lines, for the size of its type. One letter for a count;
 * a sentence is broken into about three lines, and a line never holds fewer letters than its longest word.
 */
export function flashSize(text: string): { readonly '--letters': number; readonly '--lines': number } {
  const longest = Math.max(1, ...text.split(/\s+/).map((word) => word.length));
  const letters = Math.max(longest, Math.ceil(text.length / 3), Math.min(text.length, 10));
  // Words do not break evenly: one line more than they would need.
  return { '--letters': letters, '--lines': text.length <= letters ? 1 : Math.ceil(text.length / letters) + 1 };
}
