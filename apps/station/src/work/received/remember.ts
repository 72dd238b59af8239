import { type ResultsMappingBody, resultsMapping } from '@sthene/contract';
import { type OpenLab, stationActor } from '../../labs/open-lab.ts';

/** The mapping kept for these headings that was used last. */
export async function rememberedMapping(
  lab: OpenLab,
  signature: string,
): Promise<{ name: string; mapping: ResultsMappingBody } | undefined> {
  if (signature === '') return undefined;
  for (const { name, mapping } of await lab.store.templates.forHeader(signature)) {
    const read = resultsMapping.safeParse(mapping);
    if (read.success) return { name, mapping: read.data };
  }
  return undefined;
}

/** Keeps a mapping under its name; a known name is brought up to date. */
export async function rememberResultsMapping(
  lab: OpenLab,
  headerSignature: string,
  name: string,
  mapping: ResultsMappingBody,
): Promise<void> {
  const { templates } = lab.store;
  const known = (await templates.list()).find((one) => one.name === name);
  const kept = known
    ? await templates.change(known.id, { mapping, headerSignature }, stationActor)
    : await templates.add({ name, headerSignature, mapping }, stationActor);
  await templates.use(kept.id, stationActor);
}
