import type { AthleteNote, LabId } from '@sthene/contract';
import { useId, useState } from 'react';
import { useTakeNoteBack } from '../../data/follow.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { SignFirst, useSigned } from '../../parts/signed.tsx';
import { followWords } from '../../words/follow.ts';

interface TakeBackProps {
  readonly lab: LabId;
  readonly note: AthleteNote;
  /** What it says, so that nobody takes the wrong one back. */
  readonly says: string;
  readonly onClose: () => void;
}

/** Takes a note off the page; it stays in the history. */
export function TakeBackDialog({ lab, note, says, onClose }: TakeBackProps) {
  const t = followWords.notes;
  const take = useTakeNoteBack(lab);
  const by = useSigned();
  const [reason, setReason] = useState('');
  const id = useId();
  return (
    <Dialog title={t.backTitle} onClose={onClose}>
      <form
        className="dialog-form"
        onSubmit={(event) => {
          event.preventDefault();
          if (by !== '') take.mutate({ id: note.id, reason: reason.trim(), by }, { onSuccess: onClose });
        }}
      >
        <p>
          <strong>{t.kind[note.kind]}</strong>: {says}
        </p>
        <p className="soft">{t.backText}</p>
        <label htmlFor={id}>{t.reason}</label>
        <input id={id} value={reason} maxLength={500} onChange={(event) => setReason(event.target.value)} />
        <SignFirst />
        {take.isError && <ProblemCard error={take.error} />}
        <div className="dialog-acts">
          <button type="submit" className="button main" disabled={take.isPending || by === ''}>
            {t.back}
          </button>
          <button type="button" className="button" onClick={onClose}>
            {t.form.cancel}
          </button>
        </div>
      </form>
    </Dialog>
  );
}
