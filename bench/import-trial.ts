import { call, routes } from '@sthene/contract';
import { cellCount, cells, cellsAsText } from './cells.ts';

/** Imports the minute of eight load cells into a station and returns the id of its trial and the size of the file. */
export async function importTrial(address: string): Promise<{ id: string; bytes: number }> {
  const params = { lab: 'lab' } as const;
  await call(fetch, address, routes.createLab, { params, body: { name: 'Bench' } });
  const bytes = new TextEncoder().encode(cellsAsText(cells()));
  const upload = await call(fetch, address, routes.upload, { params, query: { name: 'minute.csv' }, bytes });
  const inputs = Array.from({ length: cellCount }, (_, index) => ({
    from: { kind: 'channel' as const, index },
    part: index < cellCount / 2 ? ('left' as const) : ('right' as const),
  }));
  const outcome = await call(fetch, address, routes.import, {
    params,
    body: {
      upload: upload.id,
      mapping: { reading: {}, inputs, test: 'imtp', efforts: 'largest' },
      person: { create: { givenName: 'Bryn', familyName: 'Fernwater' } },
      onDuplicate: 'skip',
      by: 'Bench',
    },
  });
  const id = outcome.trials[0]?.id;
  if (id === undefined) throw new Error(`Nothing was imported: ${JSON.stringify(outcome.skipped)}`);
  return { id, bytes: bytes.length };
}
