import type { ImportOutcome, Problem } from '@sthene/contract';
import { useQueries } from '@tanstack/react-query';
import { tryImport } from '../../data/imports.ts';
import { problemOf } from '../../data/station.ts';
import { requestOf } from './requests.ts';
import { type Item, usable } from './state.ts';
import type { Import } from './use-import.ts';

export type DryTrial = ImportOutcome['trials'][number];

/** One trial a file would give; `at` is its place in the file. */
export interface DryRow {
  readonly item: Item;
  readonly at: number;
  readonly trial: DryTrial;
}

export interface DryRun {
  readonly rows: readonly DryRow[];
  readonly skipped: readonly { item: Item; label: string; why: string }[];
  readonly problems: readonly { item: Item; problem: Problem }[];
  readonly missing?: string;
  readonly notices: readonly { item: Item; message: string }[];
  readonly pending: boolean;
}

/** Tries the import out on the station as the form stands; nothing is stored there. */
export function useDryRun({ state, lab }: Import): DryRun {
  const items = usable(state.items);
  const requests = items.map((item) => requestOf(state, item));
  const answers = useQueries({
    queries: items.map((_item, i) => {
      const request = requests[i];
      // Neither the day nor the name of a kept mapping changes what is found.
      const asked = request?.ok
        ? { ...request.value, startedAt: undefined, remember: undefined, session: undefined }
        : {};
      return {
        queryKey: ['dry-run', lab, asked],
        enabled: request?.ok === true,
        queryFn: () => {
          if (!request?.ok) throw new Error('nothing to try');
          const { remember: _, ...value } = request.value;
          return tryImport(lab, { ...value, person: { id: 'dry-run' }, by: 'dry run' });
        },
        retry: false,
        staleTime: 60_000,
        gcTime: 60_000,
      };
    }),
  });
  const missing = requests.find((one) => !one.ok && one.missing !== '');
  const each = items.map((item, i) => ({ item, answer: answers[i] }));
  return {
    rows: each.flatMap(({ item, answer }) => (answer?.data?.trials ?? []).map((trial, at) => ({ item, at, trial }))),
    skipped: each.flatMap(({ item, answer }) => (answer?.data?.skipped ?? []).map((one) => ({ item, ...one }))),
    problems: each.flatMap(({ item, answer }) => (answer?.isError ? [{ item, problem: problemOf(answer.error) }] : [])),
    notices: each.flatMap(({ item, answer }) =>
      (answer?.data?.notices ?? []).map(({ message }) => ({ item, message })),
    ),
    ...(missing && !missing.ok ? { missing: missing.missing } : {}),
    pending: answers.some((one) => one.isFetching),
  };
}
