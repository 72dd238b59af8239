/** Steps of an editor: what is now, what was, what was taken back. */
export interface History<T> {
  readonly past: readonly T[];
  readonly now: T;
  readonly future: readonly T[];
  /** Field of the last change: typing on in it is one step. */
  readonly last: string | undefined;
}

export const begin = <T>(now: T): History<T> => ({ past: [], now, future: [], last: undefined });

/** Most steps that can be taken back. */
const most = 200;

/** A change of a field; typing on in the same field does not make further steps. */
export function change<T>(history: History<T>, next: T, field: string): History<T> {
  if (field === history.last && history.future.length === 0 && history.past.length > 0)
    return { ...history, now: next };
  return { past: [...history.past, history.now].slice(-most), now: next, future: [], last: field };
}

export function undo<T>(history: History<T>): History<T> {
  const before = history.past.at(-1);
  if (before === undefined) return history;
  return {
    past: history.past.slice(0, -1),
    now: before,
    future: [history.now, ...history.future],
    last: undefined,
  };
}

export function redo<T>(history: History<T>): History<T> {
  const [next, ...rest] = history.future;
  if (next === undefined) return history;
  return { past: [...history.past, history.now], now: next, future: rest, last: undefined };
}
