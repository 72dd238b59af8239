import { protocolRegistry } from '@sthene/core';
import { useId } from 'react';
import { importWords } from '../../words/importing.ts';
import type { Draft } from './draft.ts';
import { whyWords } from './suggest-words.ts';
import type { Import } from './use-import.ts';

interface TestFieldsProps {
  readonly imported: Import;
  readonly group: string;
  /** A file's name where there are several groups. */
  readonly name?: string;
  /** Whether body weight is asked here. */
  readonly weight: boolean;
}

/** Test, efforts and body weight, proposed with their reasons. */
export function TestFields({ imported, group, name, weight }: TestFieldsProps) {
  const t = importWords.athlete;
  const { state, act } = imported;
  const draft = state.drafts[group];
  const id = useId();
  if (!draft) return null;
  const set = (part: Partial<Draft>) => act({ do: 'draft', group, draft: { ...draft, ...part, testChosen: true } });
  const test = protocolRegistry.get(draft.test);
  return (
    <fieldset className="test-fields">
      {name !== undefined && <legend>{name}</legend>}
      <div className="field">
        <label htmlFor={`${id}test`}>{t.test}</label>
        <select
          id={`${id}test`}
          value={draft.test}
          aria-describedby={`${id}why`}
          onChange={(event) => set({ test: event.target.value })}
        >
          {protocolRegistry.all.map((one) => (
            <option key={one.id} value={one.id}>
              {one.title}
            </option>
          ))}
        </select>
        <p id={`${id}why`} className="small soft">
          {draft.testChosen ? test?.summary : draft.why.map(whyWords).join(' ')}
        </p>
      </div>
      <fieldset className="efforts">
        <legend>{t.efforts}</legend>
        {(['largest', 'all'] as const).map((choice) => (
          <label key={choice} className="choice-line">
            <input
              type="radio"
              name={`${id}efforts`}
              checked={draft.efforts === choice}
              onChange={() => set({ efforts: choice })}
            />
            {t.effortsChoice[choice]}
          </label>
        ))}
      </fieldset>
      {weight && test?.load === 'weight' && (
        <div className="field">
          <label htmlFor={`${id}weight`}>{t.bodyWeight}</label>
          <div className="with-unit">
            <input
              id={`${id}weight`}
              inputMode="decimal"
              value={state.weight.text}
              aria-describedby={`${id}help`}
              onChange={(event) => act({ do: 'set', part: { weight: { ...state.weight, text: event.target.value } } })}
            />
            <select
              aria-label={importWords.columns.unitOf(t.bodyWeight)}
              value={state.weight.unit}
              onChange={(event) =>
                act({ do: 'set', part: { weight: { ...state.weight, unit: event.target.value as 'kg' | 'N' } } })
              }
            >
              <option value="kg">{importWords.unit.kg}</option>
              <option value="N">{importWords.unit.N}</option>
            </select>
          </div>
          <p id={`${id}help`} className="small soft">
            {t.bodyWeightHelp}
          </p>
        </div>
      )}
    </fieldset>
  );
}
