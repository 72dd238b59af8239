import type { TrialView } from '@sthene/contract';
import { useId, useState } from 'react';
import type { useTrialAct } from '../../data/decisions.ts';
import { usePreference } from '../../data/use-preference.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { words } from '../../words/index.ts';

type Decided = 'exclude' | 'restore' | 'overrule-counts' | 'note';
export type DecideKind = Decided | 'undo' | 'redo';

interface DecideDialogProps {
  readonly kind: DecideKind;
  readonly view: TrialView;
  readonly act: ReturnType<typeof useTrialAct>;
  onClose(): void;
  onDone(saved: TrialView): void;
}

/** Asks for what a decision needs: a reason from a list, own words, and a name. */
export function DecideDialog({ kind, view, act, onClose, onDone }: DecideDialogProps) {
  const d = words.decide;
  const step = kind === 'undo' || kind === 'redo' ? view[kind] : undefined;
  const texts =
    kind === 'undo' || kind === 'redo'
      ? {
          title: kind === 'undo' ? words.trial.undo : words.trial.redo,
          help: step?.words ?? '',
          act: kind === 'undo' ? words.trial.undo : words.trial.redo,
          reasons: [] as string[],
        }
      : d[kind];
  const [reason, setReason] = useState('');
  const [text, setText] = useState('');
  const [name, keepName] = usePreference('signed-as');
  const [by, setBy] = useState(name ?? '');
  const [tried, setTried] = useState(false);
  const ids = { text: useId(), by: useId() };
  const last = texts.reasons.at(-1);
  const own = reason === last ? '' : reason;
  const full = [own, text.trim()].filter(Boolean).join(': ');
  const asksReason = kind !== 'undo' && kind !== 'redo';
  const missing =
    asksReason && texts.reasons.length > 0 && reason === ''
      ? d.needsReason
      : asksReason && full === ''
        ? d.needsText
        : by.trim() === ''
          ? d.needsName
          : '';
  const send = () => {
    setTried(true);
    if (missing) return;
    keepName(by.trim());
    const onSuccess = (saved: TrialView) => {
      onDone(saved);
      onClose();
    };
    if (kind === 'undo' || kind === 'redo') act.mutate({ kind, by: by.trim() }, { onSuccess });
    else
      act.mutate(
        {
          kind: 'decide',
          draft: { kind, reason: full, by: by.trim(), ...(kind === 'exclude' ? { category: reason } : {}) },
        },
        { onSuccess },
      );
  };
  return (
    <Dialog title={texts.title} onClose={onClose}>
      <form
        className="dialog-form"
        onSubmit={(event) => {
          event.preventDefault();
          send();
        }}
      >
        <p className="soft">{texts.help}</p>
        {texts.reasons.length > 0 && (
          <fieldset>
            <legend>{d.reason}</legend>
            {texts.reasons.map((one) => (
              <label key={one} className="menu-choice">
                <input type="radio" name="reason" checked={reason === one} onChange={() => setReason(one)} />
                {one}
              </label>
            ))}
          </fieldset>
        )}
        {asksReason && (
          <>
            <label htmlFor={ids.text}>
              {d.details} {own !== '' && <span className="soft small">({d.optional})</span>}
            </label>
            <textarea id={ids.text} value={text} maxLength={400} onChange={(event) => setText(event.target.value)} />
          </>
        )}
        <label htmlFor={ids.by}>{d.by}</label>
        <input
          id={ids.by}
          value={by}
          maxLength={100}
          autoComplete="name"
          onChange={(event) => setBy(event.target.value)}
        />
        {tried && missing && (
          <p className="field-error small" role="alert">
            {missing}
          </p>
        )}
        {act.isError && <ProblemCard error={act.error} />}
        <div className="dialog-acts">
          <button type="submit" className="button main" disabled={act.isPending}>
            {texts.act}
          </button>
          <button type="button" className="button" onClick={onClose}>
            {d.cancel}
          </button>
        </div>
      </form>
    </Dialog>
  );
}
