import { call, type Day, type LabId, liveRoutes } from '@sthene/contract';
import { useMutation } from '@tanstack/react-query';
import { readPreference } from '../../data/preferences.ts';
import { base, fetcher } from '../../data/station.ts';

/** Adds a line to the notes of an entry of the day. */
export function useNote(lab: LabId, day: Day | undefined) {
  return useMutation({
    mutationFn: ({ entry, text }: { entry: string; text: string }) => {
      const before = day?.entries.find(({ id }) => id === entry)?.notes ?? '';
      const notes = before === '' ? text : `${before}\n${text}`;
      const by = readPreference('signed-as') || 'floor';
      return call(fetcher, base, liveRoutes.changeEntry, { params: { lab, id: entry }, body: { notes, by } });
    },
  });
}
