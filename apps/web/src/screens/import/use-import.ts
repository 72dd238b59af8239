import type { ImportTemplate, LabId } from '@sthene/contract';
import { useQueryClient } from '@tanstack/react-query';
import { useCallback, useEffect, useMemo, useReducer, useRef } from 'react';
import { forgetFile, sendFile, templatesQuery } from '../../data/imports.ts';
import { problemOf } from '../../data/station.ts';
import { keptDraft, proposedDraft } from './draft.ts';
import { type Act, firstState, groupOf, type Item, isResults, reduce, type State } from './state.ts';
import { Preview } from './worker/client.ts';
import type { Look, Reading } from './worker/messages.ts';

/** All a step needs. */
export interface Import {
  readonly lab: LabId;
  readonly state: State;
  readonly preview: Preview | undefined;
  readonly templates: readonly ImportTemplate[];
  act(act: Act): void;
  add(files: readonly File[]): void;
  remove(item: Item): void;
  send(item: Item): void;
  /** Reads every file of a group in another way and fills its mapping again. */
  readAs(group: string, reading: Reading): Promise<void>;
  /** Fills a group's mapping from a kept one, or from the file's own proposal. */
  fill(group: string, kept: ImportTemplate | undefined): Promise<void>;
}

let lastKey = 0;

/** The import under way: looks at files in the browser and sends them to the station, one after the other. */
export function useImport(lab: LabId, prepare: () => Promise<void>): Import {
  const [state, act] = useReducer(reduce, firstState);
  const client = useQueryClient();
  const preview = usePreview();
  const latest = useRef(state);
  latest.current = state;
  const templates = useRef<readonly ImportTemplate[]>([]);
  const queue = useRef<Promise<void>>(Promise.resolve());
  const removed = useRef(new Set<string>());

  const look = useCallback(
    async (item: Item, reading: Reading): Promise<Look | undefined> => {
      try {
        const found = await preview.current().look({ file: item.file, reading });
        act({ do: 'item', key: item.key, part: { look: found, lookFailed: false } });
        return found;
      } catch {
        if (!removed.current.has(item.key)) act({ do: 'item', key: item.key, part: { lookFailed: true } });
        return undefined;
      }
    },
    [preview],
  );

  const send = useCallback(
    (item: Item) => {
      act({ do: 'item', key: item.key, part: { sendProblem: undefined } });
      queue.current = queue.current.then(async () => {
        if (removed.current.has(item.key)) return;
        try {
          await prepare();
          const upload = await sendFile(lab, item.file);
          if (removed.current.has(item.key)) await forgetFile(lab, upload.id);
          else act({ do: 'item', key: item.key, part: { upload } });
        } catch (error) {
          act({ do: 'item', key: item.key, part: { sendProblem: problemOf(error) } });
        }
      });
    },
    [lab, prepare],
  );

  const begin = useCallback(
    async (item: Item) => {
      const found = await look(item, {});
      if (found === undefined) return;
      if (isResults(found)) return send(item);
      if (found.format === '' || (found.error && !found.text)) return;
      send(item);
      const group = groupOf({ ...item, look: found });
      templates.current = await client.fetchQuery({ ...templatesQuery(lab), retry: false }).catch(() => []);
      if (latest.current.drafts[group] !== undefined) {
        const { reading } = latest.current.drafts[group];
        if (Object.keys(reading).length > 0) await look(item, reading);
        return;
      }
      const kept = templates.current.find(({ signature }) => signature === found.signature);
      const keptLook =
        kept && Object.keys(kept.mapping.reading).length > 0 ? await look(item, kept.mapping.reading) : found;
      const draft = (kept && keptLook && keptDraft(keptLook, kept)) ?? proposedDraft(found, {}, item.file.name);
      latest.current = { ...latest.current, drafts: { ...latest.current.drafts, [group]: draft } };
      act({ do: 'draft', group, draft });
    },
    [look, send, client, lab],
  );

  const add = useCallback(
    (files: readonly File[]) => {
      const items = files.map((file): Item => {
        lastKey += 1;
        return { key: `file-${lastKey}`, file, onDuplicate: 'skip' };
      });
      act({ do: 'add', items });
      void items.reduce((before, item) => before.then(() => begin(item)), Promise.resolve());
    },
    [begin],
  );

  const remove = useCallback(
    (item: Item) => {
      removed.current.add(item.key);
      act({ do: 'remove', key: item.key });
      const shared = latest.current.items.some(({ key, upload }) => key !== item.key && upload?.id === item.upload?.id);
      if (item.upload && !item.outcome && !shared) void forgetFile(lab, item.upload.id).catch(() => {});
    },
    [lab],
  );

  const fillFrom = useCallback(
    async (group: string, reading: Reading, make: (look: Look, first: Item) => ReturnType<typeof keptDraft>) => {
      const members = latest.current.items.filter((item) => groupOf(item) === group);
      for (const [i, item] of members.entries()) {
        const found = await look(item, reading);
        if (i > 0 || found === undefined) continue;
        const draft = make(found, item);
        if (draft) act({ do: 'draft', group, draft });
      }
    },
    [look],
  );

  return useMemo(
    () => ({
      lab,
      state,
      get preview() {
        return preview.current();
      },
      templates: templates.current,
      act,
      add,
      remove,
      send,
      readAs: (group: string, reading: Reading) =>
        fillFrom(group, reading, (found, first) => {
          const before = latest.current.drafts[group];
          const draft = proposedDraft(found, reading, first.file.name);
          return before ? { ...draft, remember: before.remember, rememberAs: before.rememberAs } : draft;
        }),
      fill: (group: string, kept: ImportTemplate | undefined) =>
        fillFrom(group, kept?.mapping.reading ?? {}, (found, first) =>
          kept ? keptDraft(found, kept) : proposedDraft(found, {}, first.file.name),
        ),
    }),
    [lab, state, preview, add, remove, send, fillFrom],
  );
}

/** One worker as long as the screen is there, started when it is first needed. */
function usePreview() {
  const kept = useRef<Preview>(undefined);
  useEffect(
    () => () => {
      kept.current?.close();
      kept.current = undefined;
    },
    [],
  );
  return useMemo(
    () => ({
      current: () => {
        kept.current ??= new Preview();
        return kept.current;
      },
    }),
    [],
  );
}
