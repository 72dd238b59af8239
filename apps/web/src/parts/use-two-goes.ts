import { startTransition, useEffect, useMemo, useState } from 'react';
import { useNavigationType } from 'react-router';

/** Rows that fill any screen. */
const firstRows = 40;

/**
 * A long list in two goes: what fills a screen at once, the rest right after that was painted, so that nobody waits for rows out of sight.
 * Who comes back to a list gets all of it at once, since the place they were at may be far down.
 */
export function useTwoGoes<T>(rows: readonly T[]): readonly T[] {
  const [whole, setWhole] = useState<readonly T[]>();
  const back = useNavigationType() === 'POP';
  const atOnce = back || rows.length <= firstRows || whole === rows;
  useEffect(() => {
    if (atOnce) return;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const frame = requestAnimationFrame(() => {
      timer = setTimeout(() => startTransition(() => setWhole(rows)));
    });
    return () => {
      cancelAnimationFrame(frame);
      clearTimeout(timer);
    };
  }, [rows, atOnce]);
  return useMemo(() => (atOnce ? rows : rows.slice(0, firstRows)), [rows, atOnce]);
}
