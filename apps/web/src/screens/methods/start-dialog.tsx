import type { LabId } from '@sthene/contract';
import { type Method, methodReference } from '@sthene/core';
import { useNavigate } from 'react-router';
import { useRunAct } from '../../data/methods.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { useSigned } from '../../parts/signed.tsx';
import { dayWords } from '../../words/day.ts';
import { methodWords } from '../../words/methods.ts';

const t = methodWords.start;

/** Says what judging the archive again means, and begins it. */
export function StartDialog({ lab, method, onClose }: { lab: LabId; method: Method; onClose: () => void }) {
  const act = useRunAct(lab);
  const by = useSigned();
  const navigate = useNavigate();
  const { name, version, sha256 } = methodReference(method);
  const start = () =>
    act.mutate(
      { kind: 'start', method: sha256, by },
      { onSuccess: ({ id }) => void navigate(`/${lab}/methods/runs/${id}`) },
    );
  return (
    <Dialog title={t.title} onClose={onClose}>
      <div className="dialog-form">
        <p>{t.text(methodWords.named(name, version))}</p>
        <p>{t.slow}</p>
        {!by && <p className="field-error">{dayWords.sign.needed}</p>}
        {act.isError && <ProblemCard error={act.error} />}
        <div className="dialog-acts">
          <button type="button" className="button main" disabled={!by || act.isPending} onClick={start}>
            {t.act}
          </button>
          <button type="button" className="button" onClick={onClose}>
            {t.cancel}
          </button>
        </div>
      </div>
    </Dialog>
  );
}
