import type { ImportOutcome, Problem, Upload } from '@sthene/contract';
import type { Draft } from './draft.ts';
import type { Look } from './worker/messages.ts';

export type StepNumber = 1 | 2 | 3 | 4;

/** Whose file it is: someone there already, or somebody to be added. */
export type Who =
  | { readonly kind: 'known'; readonly id: string; readonly name: string; readonly code: string }
  | { readonly kind: 'new'; readonly givenName: string; readonly familyName: string; readonly code: string };

/** One chosen file and all that is known of it. */
export interface Item {
  readonly key: string;
  readonly file: File;
  readonly look?: Look;
  readonly lookFailed?: boolean;
  readonly upload?: Upload;
  readonly sendProblem?: Problem | undefined;
  readonly onDuplicate: 'skip' | 'keep-both';
  /** Its own athlete where the files belong to several. */
  readonly who?: Who;
  readonly outcome?: ImportOutcome;
  readonly importProblem?: Problem | undefined;
}

export interface State {
  readonly step: StepNumber;
  readonly items: readonly Item[];
  /** By group: the signature of the header, or the file itself where there is none. */
  readonly drafts: Readonly<Record<string, Draft>>;
  readonly who?: Who;
  readonly different: boolean;
  readonly weight: { readonly text: string; readonly unit: 'kg' | 'N' };
  /** Local date and time as the field holds it; '' takes each file's own. */
  readonly when: string;
  readonly session: string;
  /** Who imports, as typed; absent: as signed before. */
  readonly by?: string;
  readonly oneSession: boolean;
}

export const firstState: State = {
  step: 1,
  items: [],
  drafts: {},
  different: false,
  weight: { text: '', unit: 'kg' },
  when: '',
  session: '',
  oneSession: true,
};

export type Act =
  | { readonly do: 'add'; readonly items: readonly Item[] }
  | { readonly do: 'remove'; readonly key: string }
  | { readonly do: 'item'; readonly key: string; readonly part: Partial<Item> }
  | { readonly do: 'draft'; readonly group: string; readonly draft: Draft }
  | { readonly do: 'step'; readonly step: StepNumber }
  | { readonly do: 'set'; readonly part: Partial<Omit<State, 'items' | 'drafts' | 'step'>> }
  | { readonly do: 'again' };

/** All changes of the import; nothing typed is ever lost by going back a step. */
export function reduce(state: State, act: Act): State {
  switch (act.do) {
    case 'add':
      return { ...state, items: [...state.items, ...act.items] };
    case 'remove':
      return { ...state, items: state.items.filter(({ key }) => key !== act.key) };
    case 'item':
      return { ...state, items: state.items.map((item) => (item.key === act.key ? { ...item, ...act.part } : item)) };
    case 'draft':
      return { ...state, drafts: { ...state.drafts, [act.group]: act.draft } };
    case 'step':
      return { ...state, step: act.step };
    case 'set':
      return { ...state, ...act.part };
    case 'again':
      return firstState;
  }
}

/** A table of results that is no curve: it goes another way. */
export const isResults = (look: Look): boolean =>
  look.results !== undefined && look.recording === undefined && (look.results === 'yes' || !look.text);

export type Standing = 'looking' | 'sending' | 'failed' | 'unusable' | 'question' | 'known' | 'ready' | 'results';

/** How a file stands before the import. */
export function standingOf(item: Item): Standing {
  const { look, upload, sendProblem, lookFailed } = item;
  if (lookFailed) return 'unusable';
  if (!look) return 'looking';
  if (isResults(look)) return sendProblem ? 'failed' : upload ? 'results' : 'sending';
  if (look.format === '' || (look.error && !look.text)) return 'unusable';
  if (sendProblem) return 'failed';
  if (!upload) return 'sending';
  if (look.error) return 'question';
  return upload.duplicates.length > 0 ? 'known' : 'ready';
}

/** The group a file's mapping belongs to. */
export const groupOf = (item: Item): string => item.look?.signature ?? item.key;

/** Files that go into the import: sent, readable now or with one more answer, not finished yet. */
export const usable = (items: readonly Item[]): readonly Item[] =>
  items.filter((item) => ['question', 'known', 'ready'].includes(standingOf(item)));

/** Files that still have to be looked at or sent. */
export const working = (items: readonly Item[]): readonly Item[] =>
  items.filter((item) => ['looking', 'sending'].includes(standingOf(item)));

/** Groups of usable files, in the order of their first file. */
export function groupsOf(items: readonly Item[]): { group: string; items: readonly Item[] }[] {
  const found = new Map<string, Item[]>();
  for (const item of usable(items)) found.set(groupOf(item), [...(found.get(groupOf(item)) ?? []), item]);
  return [...found].map(([group, members]) => ({ group, items: members }));
}
