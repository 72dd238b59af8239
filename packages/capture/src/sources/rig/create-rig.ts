import { type CreateSourcePorts, createSource } from '../create-source.ts';
import type { SourceDescription } from '../description.ts';
import type { Source } from '../source.ts';
import { rigSource } from './rig-source.ts';

/**
 * The source of a rig: the described one, or several joined on one grid. Parts have the rig's id with their number.
 *
 * Throws as `createSource`, and a `RangeError` without descriptions.
 */
export function createRig(descriptions: readonly SourceDescription[], ports: CreateSourcePorts): Source {
  const [only] = descriptions;
  if (only !== undefined && descriptions.length === 1) return createSource(only, ports);
  const parts = descriptions.map((description, i) =>
    createSource(description, { ...ports, id: `${ports.id} ${i + 1}` }),
  );
  return rigSource(
    ports.id,
    parts,
    ports.clock,
    descriptions.map(({ name }) => name),
  );
}
