import type { BlindStudy, LabId } from '@sthene/contract';
import { useNavigate } from 'react-router';
import { useCloseBlindStudy } from '../../data/follow.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { SignFirst, useSigned } from '../../parts/signed.tsx';
import { blindWords as t } from '../../words/blind.ts';

/** Closing cannot be taken back: whoever has seen the comparison does not read blind any more. */
export function CloseDialog({ lab, study, onClose }: { lab: LabId; study: BlindStudy; onClose: () => void }) {
  const navigate = useNavigate();
  const close = useCloseBlindStudy(lab, study.id);
  const by = useSigned();
  return (
    <Dialog title={t.closeTitle} onClose={onClose}>
      <p>{t.closeText}</p>
      <p className="soft">{study.readers.map(({ name, read }) => t.readers(name, read, study.trials)).join('; ')}</p>
      <SignFirst />
      {close.isError && <ProblemCard error={close.error} />}
      <div className="dialog-acts">
        <button
          type="button"
          className="button main"
          disabled={close.isPending || by === ''}
          onClick={() => close.mutate(by, { onSuccess: () => void navigate(`/${lab}/blind/${study.id}`) })}
        >
          {t.closeAct}
        </button>
        <button type="button" className="button" onClick={onClose}>
          {t.form.cancel}
        </button>
      </div>
    </Dialog>
  );
}
