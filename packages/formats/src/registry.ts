import { c3dFormat } from './c3d/index.ts';
import { dataPackageFormat } from './data-package/index.ts';
import type { Format } from './format.ts';
import { parquetFormat } from './parquet/index.ts';
import { textFormat } from './text/index.ts';

/** Every format the product reads, one line each; nothing is found by scanning. */
export const formats: readonly Format[] = distinct([textFormat, c3dFormat, parquetFormat, dataPackageFormat]);

/** The format of an id, or undefined. */
export const formatOf = (id: string): Format | undefined => formats.find((format) => format.id === id);

/** @throws Error when two formats share an id: the list itself is wrong. */
export function distinct(list: readonly Format[]): readonly Format[] {
  const ids = new Set<string>();
  for (const { id } of list) {
    if (ids.has(id)) throw new Error(`The format "${id}" is listed twice.`);
    ids.add(id);
  }
  return list;
}
