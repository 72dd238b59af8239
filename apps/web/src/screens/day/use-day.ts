import type { LabId } from '@sthene/contract';
import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useEffect, useState } from 'react';
import { dayQuery } from '../../data/days.ts';
import { followDay } from '../../live/follow-day.ts';

/** While the live connection tells the day it is asked for only now and then, to be sure, ms. */
const whileFollowed = 20_000;

/** A day as it stands: told by the live connection while it is open, else asked for. */
export function useDay(lab: LabId, id: string) {
  const client = useQueryClient();
  const [followed, setFollowed] = useState(false);
  const query = useQuery({ ...dayQuery(lab, id), ...(followed ? { refetchInterval: whileFollowed } : {}) });
  const open = query.data?.status === 'open';
  useEffect(() => {
    if (!open) return;
    const stop = followDay(lab, {
      onLink: setFollowed,
      onDay: (day) => {
        if (day?.id === id) client.setQueryData(['day', lab, id], day);
        else void client.invalidateQueries({ queryKey: ['day', lab, id] });
      },
    });
    return () => {
      stop();
      setFollowed(false);
    };
  }, [lab, id, open, client]);
  return query;
}
