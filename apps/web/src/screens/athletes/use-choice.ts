import { useSearchParams } from 'react-router';

/** What is looked at, kept in the address: test, metric, reference. */
export function useChoice() {
  const [search, setSearch] = useSearchParams();
  const of = (key: string) => search.get(key) ?? undefined;
  const choose = (key: 'test' | 'metric' | 'against', value: string) =>
    setSearch(
      (now) => {
        const next = new URLSearchParams(now);
        next.set(key, value);
        return next;
      },
      { replace: true },
    );
  return { test: of('test'), metric: of('metric'), against: of('against'), choose };
}
