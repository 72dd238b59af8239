const plain = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?$/u;

/** A number as a device writes it; undefined for anything else, empty and endless ones included. */
export function parseNumber(text: string, decimal: '.' | ','): number | undefined {
  const word = decimal === ',' ? text.replace(',', '.') : text;
  if (!plain.test(word) || (decimal === ',' && text.includes('.'))) return undefined;
  const value = Number(word);
  return Number.isFinite(value) ? value : undefined;
}
