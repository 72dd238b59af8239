import { useCallback, useMemo } from 'react';
import { useSearchParams } from 'react-router';

/** Sessions on one page. */
export const pageSize = 50;

export interface SessionListFilter {
  readonly text: string;
  readonly test: string;
  /** From 1. */
  readonly page: number;
}

/** The filter of the list, kept in the address so that going back brings the same list. */
export function useSessionFilter(): [SessionListFilter, (next: SessionListFilter) => void] {
  const [search, setSearch] = useSearchParams();
  const filter = useMemo(() => {
    const page = Number(search.get('page'));
    return {
      text: search.get('find') ?? '',
      test: search.get('test') ?? '',
      page: Number.isInteger(page) && page > 0 ? page : 1,
    };
  }, [search]);
  const setFilter = useCallback(
    (next: SessionListFilter) => {
      const params = new URLSearchParams();
      if (next.text) params.set('find', next.text);
      if (next.test) params.set('test', next.test);
      if (next.page > 1) params.set('page', String(next.page));
      setSearch(params, { replace: true });
    },
    [setSearch],
  );
  return [filter, setFilter];
}
