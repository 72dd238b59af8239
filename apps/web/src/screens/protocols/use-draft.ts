import { useEffect, useState } from 'react';
import { dropDraft, keepDraft, readDraft } from '../../data/drafts.ts';
import { isForm, type ProtocolForm } from './form.ts';
import { begin, change, type History, redo, undo } from './history.ts';

interface Kept {
  readonly after: string;
  readonly form: ProtocolForm;
}

const isKept = (value: unknown): value is Kept =>
  typeof value === 'object' && value !== null && isForm((value as Partial<Kept>).form);

/** The form with its steps. A draft survives a reload; one made from an older version is not taken up again. */
export function useDraft(name: string, after: string, start: ProtocolForm) {
  const [{ history, found }, setState] = useState(() => {
    const kept = readDraft(name);
    const fits = isKept(kept) && kept.after === after;
    const first = begin(start);
    return { history: fits ? change(first, kept.form, 'draft') : first, found: fits };
  });
  const dirty = history.now !== start;
  useEffect(() => {
    if (dirty) keepDraft(name, { after, form: history.now } satisfies Kept);
    else dropDraft(name);
  }, [name, after, dirty, history.now]);
  const step = (next: (history: History<ProtocolForm>) => History<ProtocolForm>) =>
    setState((state) => ({ ...state, history: next(state.history) }));
  return {
    form: history.now,
    /** A draft was there when the page was opened. */
    found: found && dirty,
    dirty,
    canUndo: history.past.length > 0,
    canRedo: history.future.length > 0,
    set: (part: Partial<ProtocolForm>, field: string) =>
      step((state) => change(state, { ...state.now, ...part }, field)),
    undo: () => step(undo),
    redo: () => step(redo),
    throwAway: () => {
      dropDraft(name);
      setState({ history: begin(start), found: false });
    },
    drop: () => dropDraft(name),
  };
}
