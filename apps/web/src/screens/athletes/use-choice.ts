import { useSearchParams } from 'react-router';

const keys = [
  'squad',
  'test',
  'metric',
  'other',
  'against',
  'sort',
  'sessions',
  'view',
  'position',
  'may',
  'curves',
] as const;
type Key = (typeof keys)[number];

/** What is looked at, kept in the address: squad, test, metric, reference, order, sessions and so on. */
export function useChoice() {
  const [search, setSearch] = useSearchParams();
  const of = (key: string) => search.get(key) ?? undefined;
  const choose = (key: Key, value: string) =>
    setSearch(
      (now) => {
        const next = new URLSearchParams(now);
        next.set(key, value);
        return next;
      },
      { replace: true },
    );
  return {
    ...(Object.fromEntries(keys.map((key) => [key, of(key)])) as Readonly<Record<Key, string | undefined>>),
    choose,
  };
}
