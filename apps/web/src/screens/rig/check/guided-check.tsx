import { type LabId, type RigCheckDraft, type RigView, rigCheckRoutes } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { useMay } from '../../../data/access.ts';
import { platesNowQuery, useCheckAct } from '../../../data/rig-checks.ts';
import { ProblemCard } from '../../../parts/problem-card.tsx';
import { useSigned } from '../../../parts/signed.tsx';
import { useSay } from '../../../parts/status.tsx';
import { dayWords } from '../../../words/day.ts';
import { rigCheckWords } from '../../../words/rig-check.ts';
import { Figures, Verdict } from './check-result.tsx';
import { ExtrasPart } from './extras-part.tsx';
import { StepPart } from './step-part.tsx';

const t = rigCheckWords.step;

/** A check under way: one step at a time, with what the plates show now, and what the readings say so far. */
export function GuidedCheck({ lab, rig, draft }: { lab: LabId; rig: RigView; draft: RigCheckDraft }) {
  const act = useCheckAct(lab, rig.id);
  const may = useMay()(rigCheckRoutes.readRigCheck);
  const now = useQuery({ ...platesNowQuery(lab, rig.id), enabled: may });
  const by = useSigned();
  const say = useSay();
  const [note, setNote] = useState('');
  const [sure, setSure] = useState(false);
  const step = draft.steps[draft.next];
  const { readings } = draft.document;
  const finish = () => {
    if (!by) return say(dayWords.sign.needed);
    act.mutate({ kind: 'finish', note, by }, { onSuccess: () => say(t.kept) });
  };
  return (
    <div className="check-columns">
      <section className="panel check-step" aria-labelledby="step">
        <h2 id="step">{step ? t.title(draft.next + 1, draft.steps.length) : t.done}</h2>
        <progress max={draft.steps.length} value={draft.next} aria-labelledby="step" />
        {step && may && (
          <StepPart
            lab={lab}
            rig={rig}
            draft={draft}
            step={step}
            now={now.isError ? undefined : now.data}
            act={act}
            key={`${draft.next}/${readings.length}`}
          />
        )}
        {act.isError && act.variables?.kind !== 'read' && <ProblemCard error={act.error} />}
        <div className="acts">
          {may && readings.length > 0 && (
            <button
              type="button"
              className="button"
              disabled={act.isPending}
              onClick={() => act.mutate({ kind: 'undo' })}
            >
              {t.undo}
            </button>
          )}
          {may && readings.length > 0 && (
            <button
              type="button"
              className={step ? 'button quiet' : 'button main'}
              disabled={act.isPending}
              onClick={finish}
            >
              {step ? t.early : t.finish}
            </button>
          )}
          {may && (
            <button
              type="button"
              className="button quiet"
              disabled={act.isPending}
              onClick={() => (sure ? act.mutate({ kind: 'drop' }) : setSure(true))}
            >
              {sure ? t.dropSure : t.drop}
            </button>
          )}
        </div>
        <div className="field">
          <label htmlFor="check-note">{t.note}</label>
          <input id="check-note" value={note} maxLength={2000} onChange={(event) => setNote(event.target.value)} />
        </div>
        {may && rig.state === 'measuring' && (
          <ExtrasPart lab={lab} rig={rig} draft={draft} now={now.isError ? undefined : now.data} act={act} />
        )}
      </section>
      <section className="panel" aria-labelledby="so-far">
        <h2 id="so-far">{rigCheckWords.result.soFar}</h2>
        {readings.length > 0 && <Verdict result={draft.result} />}
        <Figures result={draft.result} document={draft.document} />
      </section>
    </div>
  );
}
