import type { CheckExtra, LabId, PlatesNow, RigCheckDraft, RigView, VirtualCheckAct } from '@sthene/contract';
import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { actOnVirtual, type useCheckAct } from '../../../data/rig-checks.ts';
import { numberText } from '../../../number/format.ts';
import { ProblemCard } from '../../../parts/problem-card.tsx';
import { rigCheckWords } from '../../../words/rig-check.ts';
import { newtonText } from './check-text.ts';

const t = rigCheckWords.extras;
/** Pulls that are held on virtual plates, N: a line needs two. */
const pulls = [400, 1200];

interface ExtrasProps {
  readonly lab: LabId;
  readonly rig: RigView;
  readonly draft: RigCheckDraft;
  readonly now: PlatesNow | undefined;
  readonly act: ReturnType<typeof useCheckAct>;
}

/** Looks beyond the masses: empty plates, a tap, a person on each plate, a pull against a reference cell. */
export function ExtrasPart({ lab, rig, draft, now, act }: ExtrasProps) {
  const [cell, setCell] = useState('');
  const value = cell.trim() === '' ? Number.NaN : Number(cell.replace(',', '.'));
  const stage = useMutation({
    mutationFn: (body: VirtualCheckAct) => actOnVirtual(lab, rig.id, body),
    onSuccess: ({ cell: shown }) => {
      if (shown !== undefined) setCell(String(shown));
    },
  });
  const look = (extra: CheckExtra, word: string) => (
    <button
      type="button"
      className="button"
      disabled={act.isPending}
      onClick={() => act.mutate({ kind: 'extra', extra })}
    >
      {word}
    </button>
  );
  /** What nobody but a virtual person can do here; real plates need no such button. */
  const stageButton = (body: VirtualCheckAct, word: string) =>
    rig.virtual && (
      <button type="button" className="button" disabled={stage.isPending} onClick={() => stage.mutate(body)}>
        {word}
      </button>
    );
  const { plates } = draft.document;
  return (
    <details className="extras">
      <summary>{t.title}</summary>
      <p className="small soft">{t.help}</p>
      {rig.virtual && (
        <p className="small soft">
          <span className="example-mark">{rigCheckWords.step.virtualMark}</span> {t.virtual.help}
        </p>
      )}
      {now && now.plates.length > 0 && (
        <dl className="extras-now" aria-label={t.shows}>
          {now.plates.map(({ plate, mean }) => (
            <div key={plate}>
              <dt>{rigCheckWords.plate(plate)}</dt>
              <dd className="number">{newtonText(mean)}</dd>
            </div>
          ))}
        </dl>
      )}
      {stage.isError && <ProblemCard error={stage.error} />}
      <ul className="extras-list">
        <li>
          {stageButton({ kind: 'clear' }, t.virtual.clear)}
          {look({ kind: 'rest' }, t.rest)}
        </li>
        {plates.map((plate) => (
          <li key={plate}>
            {stageButton({ kind: 'tap', plate }, t.virtual.tap(plate))}
            {look({ kind: 'tap', plate }, t.tap(plate))}
          </li>
        ))}
        {plates.map((plate) => (
          <li key={plate}>
            {stageButton({ kind: 'stand', plate }, t.virtual.stand(plate))}
            {look({ kind: 'person', plate }, t.person(plate))}
          </li>
        ))}
        {rig.virtual && (
          <li>
            {pulls.map((newtons) => (
              <span key={newtons}>
                {stageButton({ kind: 'pull', newtons }, t.virtual.pull(`${numberText(newtons, 0)}\u00a0N`))}
              </span>
            ))}
          </li>
        )}
      </ul>
      <form
        className="typed-reading"
        onSubmit={(event) => {
          event.preventDefault();
          if (value >= 0) act.mutate({ kind: 'extra', extra: { kind: 'cell', cell: value } });
        }}
      >
        <div className="field">
          <label htmlFor="reference-cell">{t.cell}</label>
          <input
            id="reference-cell"
            inputMode="decimal"
            value={cell}
            onChange={(event) => setCell(event.target.value)}
            autoComplete="off"
          />
        </div>
        <button type="submit" className="button" disabled={!(value >= 0)}>
          {t.cellAct}
        </button>
      </form>
    </details>
  );
}
