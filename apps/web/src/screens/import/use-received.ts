import type { LabId } from '@sthene/contract';
import { useQueryClient } from '@tanstack/react-query';
import { useEffect, useRef } from 'react';
import { useSearchParams } from 'react-router';
import { sentFile, uploadsQuery } from '../../data/imports.ts';
import { problemOf } from '../../data/station.ts';
import { useSay } from '../../parts/status.tsx';

/** `?received=` goes on with a file that was sent earlier and then left. */
export function useReceived(lab: LabId, add: (files: readonly File[]) => void): void {
  const [search, setSearch] = useSearchParams();
  const client = useQueryClient();
  const say = useSay();
  const begun = useRef(false);
  const id = search.get('received');
  useEffect(() => {
    if (id === null || begun.current) return;
    begun.current = true;
    setSearch({}, { replace: true });
    client
      .fetchQuery(uploadsQuery(lab))
      .then(async (list) => {
        const one = list.find((entry) => entry.id === id);
        if (one) add([await sentFile(lab, one.id, one.fileName, one.receivedAt)]);
      })
      .catch((error: unknown) => say(problemOf(error).detail));
  }, [id, lab, add, client, say, setSearch]);
}
