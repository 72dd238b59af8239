import { useSearchParams } from 'react-router';

/** What is looked at, kept in the address: squad, test, metric, reference, order, sessions. */
export function useChoice() {
  const [search, setSearch] = useSearchParams();
  const of = (key: string) => search.get(key) ?? undefined;
  const choose = (key: 'squad' | 'test' | 'metric' | 'against' | 'sort' | 'sessions', value: string) =>
    setSearch(
      (now) => {
        const next = new URLSearchParams(now);
        next.set(key, value);
        return next;
      },
      { replace: true },
    );
  return {
    squad: of('squad'),
    test: of('test'),
    metric: of('metric'),
    against: of('against'),
    sort: of('sort'),
    sessions: of('sessions'),
    choose,
  };
}
