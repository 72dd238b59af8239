/** Bound parameters of one statement. */
const atOnce = 1_000;

/** Reads the rows of many ids. Bound parameters of a statement are limited, so a long list is asked in pieces. */
export async function inPieces<Row>(
  ids: readonly string[],
  read: (piece: readonly string[]) => Promise<readonly Row[]>,
): Promise<Row[]> {
  const rows: Row[] = [];
  for (let start = 0; start < ids.length; start += atOnce) rows.push(...(await read(ids.slice(start, start + atOnce))));
  return rows;
}
