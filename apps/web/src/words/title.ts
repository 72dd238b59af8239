/** A title inside a sentence: its first letter small, unless it begins with an abbreviation, as RFD does. */
export const inSentence = (title: string): string =>
  /^[A-Z][A-Z]/.test(title) ? title : title.charAt(0).toLowerCase() + title.slice(1);
