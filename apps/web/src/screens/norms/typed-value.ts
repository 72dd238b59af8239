/** A value as somebody types it, with a point or a comma; undefined unless it is a number above zero. */
export function typedValue(text: string): number | undefined {
  const plain = text.trim().replace(',', '.');
  if (!/^\d+(\.\d+)?$/.test(plain)) return undefined;
  const value = Number(plain);
  return value > 0 ? value : undefined;
}
