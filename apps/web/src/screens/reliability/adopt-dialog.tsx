import type { LabId, ReliabilityFound, ReliabilityView } from '@sthene/contract';
import { useId, useState } from 'react';
import { useAdopt, useEndAdoption } from '../../data/follow.ts';
import { usePreference } from '../../data/use-preference.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { guest } from '../../parts/signed.tsx';
import { followWords } from '../../words/follow.ts';
import { scaleText } from '../athletes/values.ts';

interface DialogProps {
  readonly lab: LabId;
  readonly view: ReliabilityView;
  readonly study: ReliabilityFound;
  readonly kind: 'adopt' | 'end';
  readonly onClose: () => void;
}

/** Asks for a reason and a name before the noise of a squad becomes another one. */
export function AdoptDialog({ lab, view, study, kind, onClose }: DialogProps) {
  const t = followWords.adopt;
  const adopt = useAdopt(lab);
  const end = useEndAdoption(lab);
  const act = kind === 'adopt' ? adopt : end;
  const [name, keepName] = usePreference('signed-as');
  const [by, setBy] = useState(name || (lab === 'example' ? guest : ''));
  const [reason, setReason] = useState('');
  const [tried, setTried] = useState(false);
  const ids = { reason: useId(), by: useId() };
  const squad = view.squads.find(({ id }) => id === view.squad)?.name ?? t.everybody;
  const send = () => {
    setTried(true);
    const signed = { reason: reason.trim(), by: by.trim() };
    if (signed.reason === '' || signed.by === '' || view.test === undefined) return;
    if (signed.by !== guest) keepName(signed.by);
    if (kind === 'end') {
      if (view.adopted !== undefined) end.mutate({ id: view.adopted.id, ...signed }, { onSuccess: onClose });
      return;
    }
    const of = { test: view.test, metric: view.metric.id, ...(view.squad === undefined ? {} : { squad: view.squad }) };
    adopt.mutate({ ...of, sessions: view.sessions, shown: study.error.value, ...signed }, { onSuccess: onClose });
  };
  return (
    <Dialog title={kind === 'adopt' ? t.dialog : t.endDialog} onClose={onClose}>
      <form
        className="dialog-form"
        onSubmit={(event) => {
          event.preventDefault();
          send();
        }}
      >
        <p className="soft">{kind === 'adopt' ? t.dialogText(scaleText(study.error.value, view), squad) : t.endText}</p>
        <label htmlFor={ids.reason}>{t.reason}</label>
        <textarea id={ids.reason} value={reason} maxLength={500} onChange={(event) => setReason(event.target.value)} />
        <label htmlFor={ids.by}>{t.name}</label>
        <input
          id={ids.by}
          value={by}
          maxLength={100}
          autoComplete="name"
          onChange={(event) => setBy(event.target.value)}
        />
        {tried && (reason.trim() === '' || by.trim() === '') && (
          <p className="field-error small" role="alert">
            {t.needs}
          </p>
        )}
        {act.isError && <ProblemCard error={act.error} />}
        <div className="dialog-acts">
          <button type="submit" className="button main" disabled={act.isPending}>
            {kind === 'adopt' ? t.act : t.end}
          </button>
          <button type="button" className="button" onClick={onClose}>
            {t.cancel}
          </button>
        </div>
      </form>
    </Dialog>
  );
}
