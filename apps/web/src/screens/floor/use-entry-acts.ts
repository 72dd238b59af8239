import { call, type DayEntry, type LabId, liveRoutes } from '@sthene/contract';
import { useMutation } from '@tanstack/react-query';
import type { EntryPart } from '../../data/days.ts';
import { readPreference } from '../../data/preferences.ts';
import { base, fetcher } from '../../data/station.ts';
import { useSay } from '../../parts/status.tsx';
import { liveWords as words } from '../../words/live.ts';

/** Who signs on a Floor where nobody gave a name. */
export const floorSigner = (): string => readPreference('signed-as') || 'floor';

/** What is kept with the athlete on the rig: notes and setup. The day comes back over the live connection. */
export function useEntryActs(lab: LabId, entry: DayEntry | undefined, done: () => void) {
  const say = useSay();
  const change = useMutation({
    mutationFn: ({ id, part }: { id: string; part: EntryPart; kept: string; failed: string }) =>
      call(fetcher, base, liveRoutes.changeEntry, { params: { lab, id }, body: { ...part, by: floorSigner() } }),
    onSuccess: (_, { kept }) => say(kept),
    onError: (_, { failed }) => say(failed),
  });
  const keep = (part: EntryPart, { kept, failed }: { kept: string; failed: string }) => {
    done();
    if (entry !== undefined) change.mutate({ id: entry.id, part, kept, failed });
  };
  const keepNote = (text: string) => {
    if (entry === undefined || text === '') done();
    else keep({ notes: entry.notes === '' ? text : `${entry.notes}\n${text}` }, words.note);
  };
  const keepSetup = (setup: EntryPart['setup'] = {}) => keep({ setup }, words.setup);
  const sameSetup = () => {
    if (entry?.lastSetup !== undefined) keepSetup(entry.lastSetup.values);
  };
  return { keepNote, keepSetup, sameSetup };
}
