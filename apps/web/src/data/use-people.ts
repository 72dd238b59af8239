import type { LabId, Person } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { peopleQuery } from './imports.ts';

interface People {
  readonly people: readonly Person[];
  /**
   * Whether the list is the station's own of now. Until then nobody may be called new: who is missing may only not
   * have come yet, and an athlete made twice divides a history.
   */
  readonly whole: boolean;
  /** Why the list cannot be read. */
  readonly error: unknown;
  again(): void;
}

/** Every athlete of the lab, for a field that also makes new ones. */
export function usePeople(lab: LabId): People {
  const asked = useQuery({ ...peopleQuery(lab), retry: false });
  const [whole, setWhole] = useState(false);
  if (!whole && asked.isSuccess && (asked.isFetchedAfterMount || !asked.isStale)) setWhole(true);
  return {
    people: asked.data ?? [],
    whole,
    error: whole ? null : asked.error,
    again: () => void asked.refetch(),
  };
}
