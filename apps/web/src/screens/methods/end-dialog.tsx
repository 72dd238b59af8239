import type { LabId, Recomputation } from '@sthene/contract';
import { useId, useState } from 'react';
import { useRunAct } from '../../data/methods.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';
import { methodWords } from '../../words/methods.ts';

const t = methodWords.end;

/** Says what adopting or discarding means, asks why, and does it. */
export function EndDialog({
  lab,
  run,
  kind,
  onClose,
}: {
  lab: LabId;
  run: Recomputation;
  kind: 'adopt' | 'discard';
  onClose: () => void;
}) {
  const id = useId();
  const [reason, setReason] = useState('');
  const [tried, setTried] = useState(false);
  const act = useRunAct(lab);
  const by = useSigned();
  const say = useSay();
  const adopting = kind === 'adopt';
  const end = () => {
    setTried(true);
    if (reason.trim() === '' || !by) return;
    act.mutate(
      { kind, id: run.id, by, reason: reason.trim() },
      {
        onSuccess: () => {
          say(adopting ? t.adopted : t.discarded);
          onClose();
        },
      },
    );
  };
  return (
    <Dialog title={adopting ? t.adoptTitle : t.discardTitle} onClose={onClose}>
      <form
        className="dialog-form"
        onSubmit={(event) => {
          event.preventDefault();
          end();
        }}
      >
        {adopting ? (
          <>
            <p>{t.adoptText(methodWords.named(run.method.name, run.method.version), run.done)}</p>
            <p>{t.adoptSafe}</p>
            {run.failed > 0 && <p>{t.failed(run.failed)}</p>}
          </>
        ) : (
          <p>{t.discardText}</p>
        )}
        <label htmlFor={id}>{t.reason}</label>
        <textarea
          id={id}
          rows={3}
          maxLength={500}
          value={reason}
          aria-describedby={`${id}-help`}
          onChange={(event) => setReason(event.target.value)}
        />
        <p id={`${id}-help`} className="small soft">
          {t.reasonHelp}
        </p>
        {tried && reason.trim() === '' && <p className="field-error">{t.reasonNeeded}</p>}
        {tried && !by && <p className="field-error">{dayWords.sign.needed}</p>}
        {act.isError && <ProblemCard error={act.error} />}
        <div className="dialog-acts">
          <button type="submit" className="button main" disabled={act.isPending}>
            {adopting ? methodWords.runs.adopt : methodWords.runs.discard}
          </button>
          <button type="button" className="button" onClick={onClose}>
            {t.keep}
          </button>
        </div>
      </form>
    </Dialog>
  );
}
