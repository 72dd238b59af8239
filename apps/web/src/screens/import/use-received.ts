import type { LabId } from '@sthene/contract';
import { useQueryClient } from '@tanstack/react-query';
import { useEffect, useRef } from 'react';
import { useSearchParams } from 'react-router';
import { sentFile, uploadsQuery } from '../../data/imports.ts';
import { sessionQuery } from '../../data/queries.ts';
import { problemOf } from '../../data/station.ts';
import { useSay } from '../../parts/status.tsx';
import type { Who } from './state.ts';
import { fieldTime } from './when.ts';

/** `?with=` begins with the athlete and the day of a session, so that its trials can be added to it. */
export function useSession(lab: LabId, set: (who: Who, when: string) => void): void {
  const [search, setSearch] = useSearchParams();
  const client = useQueryClient();
  const begun = useRef(false);
  const id = search.get('with');
  useEffect(() => {
    if (id === null || begun.current) return;
    begun.current = true;
    setSearch({}, { replace: true });
    // Without an answer the import simply begins empty; the athlete can be chosen by hand.
    client.fetchQuery(sessionQuery(lab, id)).then(
      ({ person, startedAt }) => set({ kind: 'known', ...person }, fieldTime(new Date(startedAt))),
      () => {},
    );
  }, [id, lab, set, client, setSearch]);
}

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
