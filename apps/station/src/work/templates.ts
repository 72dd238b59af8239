import { type ImportTemplate, type Mapping, mapping } from '@sthene/contract';
import type { OpenLab } from '../labs/open-lab.ts';
import { stationActor } from '../labs/open-lab.ts';

/** Remembered mappings, for one header or all; the one used last comes first. */
export async function listTemplates(lab: OpenLab, signature: string | undefined): Promise<ImportTemplate[]> {
  const found =
    signature === undefined ? await lab.store.templates.list() : await lab.store.templates.forHeader(signature);
  return found.flatMap((one) => {
    const known = mapping.safeParse(one.mapping);
    return known.success
      ? [{ signature: one.headerSignature, name: one.name, mapping: known.data, lastUsed: one.lastUsedAt ?? '' }]
      : [];
  });
}

/** Keeps a mapping under its name; a known name is brought up to date. Body weight is one athlete's and is never kept. */
export async function rememberMapping(lab: OpenLab, signature: string, name: string, used: Mapping): Promise<void> {
  const { templates } = lab.store;
  const { bodyWeight: _, ...chosen } = used;
  const known = (await templates.list()).find((one) => one.name === name);
  const kept = known
    ? await templates.change(known.id, { mapping: chosen, headerSignature: signature }, stationActor)
    : await templates.add({ name, headerSignature: signature, mapping: chosen }, stationActor);
  await templates.use(kept.id, stationActor);
}
