import type { CheckExtra, RigCheckDraft } from '@sthene/contract';
import { useState } from 'react';
import type { useCheckAct } from '../../../data/rig-checks.ts';
import { rigCheckWords } from '../../../words/rig-check.ts';

const t = rigCheckWords.extras;

/** Looks beyond the masses: empty plates, a tap, a person on each plate, a pull against a reference cell. */
export function ExtrasPart({ draft, act }: { draft: RigCheckDraft; act: ReturnType<typeof useCheckAct> }) {
  const [cell, setCell] = useState('');
  const value = cell.trim() === '' ? Number.NaN : Number(cell.replace(',', '.'));
  const look = (extra: CheckExtra) => act.mutate({ kind: 'extra', extra });
  const { plates } = draft.document;
  return (
    <details className="extras">
      <summary>{t.title}</summary>
      <p className="small soft">{t.help}</p>
      <div className="acts">
        <button type="button" className="button" disabled={act.isPending} onClick={() => look({ kind: 'rest' })}>
          {t.rest}
        </button>
        {plates.flatMap((plate) => [
          <button
            key={`tap${plate}`}
            type="button"
            className="button"
            disabled={act.isPending}
            onClick={() => look({ kind: 'tap', plate })}
          >
            {t.tap(plate)}
          </button>,
          <button
            key={`person${plate}`}
            type="button"
            className="button"
            disabled={act.isPending}
            onClick={() => look({ kind: 'person', plate })}
          >
            {t.person(plate)}
          </button>,
        ])}
      </div>
      <form
        className="typed-reading"
        onSubmit={(event) => {
          event.preventDefault();
          if (value >= 0) look({ kind: 'cell', cell: value });
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
