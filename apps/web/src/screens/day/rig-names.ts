import type { LabId } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { rigsQuery } from '../../data/rigs.ts';

/** Letter of a rig by its id; a rig that is gone keeps its id. */
export function useRigLetter(lab: LabId): (id: string) => string {
  const rigs = useQuery(rigsQuery(lab)).data ?? [];
  return (id) => rigs.find((rig) => rig.id === id)?.letter ?? id;
}
