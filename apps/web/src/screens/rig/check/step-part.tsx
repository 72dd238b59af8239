import type { CheckStepView, LabId, PlatesNow, RigCheckDraft, RigView } from '@sthene/contract';
import { type ReferenceMass, referenceForce, type SiteGravity } from '@sthene/core';
import { useMutation } from '@tanstack/react-query';
import { useEffect, useRef, useState } from 'react';
import { putMasses, type useCheckAct } from '../../../data/rig-checks.ts';
import { numberText } from '../../../number/format.ts';
import { ProblemCard } from '../../../parts/problem-card.tsx';
import { useSigned } from '../../../parts/signed.tsx';
import { rigCheckWords } from '../../../words/rig-check.ts';
import { newtonText } from './check-text.ts';

const t = rigCheckWords.step;

interface StepProps {
  readonly lab: LabId;
  readonly rig: RigView;
  readonly draft: RigCheckDraft;
  readonly step: CheckStepView;
  readonly now: PlatesNow | undefined;
  readonly act: ReturnType<typeof useCheckAct>;
}

/** What to do now, what the plate shows, how long it has rested, and the button that reads it. */
export function StepPart({ lab, rig, draft, step, now, act }: StepProps) {
  const by = useSigned();
  const put = useMutation({
    mutationFn: () => putMasses(lab, rig.id, { plate: step.plate, spot: step.spot, masses: step.masses, by }),
  });
  const button = useRef<HTMLButtonElement>(null);
  const [typing, setTyping] = useState(rig.state !== 'measuring');
  const { document } = draft;
  const { force } = referenceForce(
    step.masses.flatMap((id) => document.masses.filter((one) => one.id === id)) as ReferenceMass[],
    document.gravity as SiteGravity,
    document.airDensity,
  );
  const shown = now?.plates.find(({ plate }) => plate === step.plate);
  const needed = now?.needed ?? 3;
  const steady = shown !== undefined && shown.steadyFor >= needed - 1e-9;
  // Whoever reads with the keyboard presses the same key again for the next step.
  useEffect(() => button.current?.focus({ preventScroll: true }), []);
  const problem = act.isError && act.variables?.kind === 'read' ? act.error : undefined;
  return (
    <>
      <p className="step-do">{doText(step, draft)}</p>
      <p className="soft">
        {t.series(step.series)}, {t.direction[step.direction]}. {t.expected(newtonText(force))}.
        {step.spot !== 'centre' && ` ${t.spotsHelp}`}
      </p>
      {rig.virtual && (
        <p>
          <button type="button" className="button" disabled={put.isPending} onClick={() => put.mutate()}>
            {t.virtual}
          </button>{' '}
          <span className="example-mark">{t.virtualMark}</span>
        </p>
      )}
      {put.isError && <ProblemCard error={put.error} />}
      <dl className="step-now">
        <div>
          <dt>{t.shows}</dt>
          <dd className="number">{shown ? newtonText(shown.mean) : t.notLive}</dd>
        </div>
        {shown?.place && (
          <div>
            <dt>{t.place}</dt>
            <dd className="number step-place">
              {t.placeAt(numberText(shown.place.x, 0), numberText(shown.place.y, 0))}
            </dd>
            <dd className="small soft step-axes">{t.placeAxes}</dd>
          </div>
        )}
      </dl>
      {shown && (
        <div className="step-rest" data-steady={steady}>
          <progress max={needed} value={Math.min(needed, shown.steadyFor)} aria-label={t.moving} />
          <span className="number">{t.resting(numberText(shown.steadyFor, 1), numberText(needed, 0))}</span>
          <span role="status">{steady ? t.ready : t.moving}</span>
        </div>
      )}
      {problem && <ProblemCard error={problem} />}
      <div className="acts">
        <button
          ref={button}
          type="button"
          className="button main step-read"
          // Not `disabled`: that would take the focus away from whoever reads with a key.
          aria-disabled={!steady}
          onClick={() => steady && !act.isPending && act.mutate({ kind: 'read', step, anyway: false })}
        >
          {t.read}
        </button>
        {problem && steady && (
          <button
            type="button"
            className="button"
            disabled={act.isPending}
            onClick={() => act.mutate({ kind: 'read', step, anyway: true })}
          >
            {t.readAnyway}
          </button>
        )}
        {!typing && (
          <button type="button" className="button quiet" onClick={() => setTyping(true)}>
            {t.typed}
          </button>
        )}
      </div>
      {typing && (
        <TypedReading onTake={(typed) => act.mutate({ kind: 'read', step, typed, anyway: problem !== undefined })} />
      )}
    </>
  );
}

function TypedReading({ onTake }: { onTake: (newtons: number) => void }) {
  const [text, setText] = useState('');
  const value = text.trim() === '' ? Number.NaN : Number(text.replace(',', '.'));
  return (
    <form
      className="typed-reading"
      onSubmit={(event) => {
        event.preventDefault();
        if (Number.isFinite(value)) onTake(value);
      }}
    >
      <div className="field">
        <label htmlFor="typed-reading">{t.typedLabel}</label>
        <input
          id="typed-reading"
          inputMode="decimal"
          value={text}
          onChange={(event) => setText(event.target.value)}
          autoComplete="off"
        />
      </div>
      <button type="submit" className="button" disabled={!Number.isFinite(value)}>
        {t.typedAct}
      </button>
    </form>
  );
}

function doText(step: CheckStepView, { document, steps, next }: RigCheckDraft): string {
  const { plate, masses, direction, spot } = step;
  const before = steps[next - 1];
  if (spot !== 'centre' || (before !== undefined && before.spot !== 'centre' && before.plate === plate))
    return t.move(plate, t.spots[spot]);
  if (direction === 'down') return t.takeOff(plate, masses.length, document.masses.length);
  const last = document.masses.find(({ id }) => id === masses.at(-1));
  if (last === undefined) return t.empty(plate);
  return t.put(plate, masses.length, document.masses.length, last.name);
}
