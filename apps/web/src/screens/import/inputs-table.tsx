import { useState } from 'react';
import { importWords } from '../../words/importing.ts';
import type { DraftInput } from './draft.ts';
import { InputRow } from './input-row.tsx';
import type { Look } from './worker/messages.ts';

const few = 6;

interface InputsTableProps {
  readonly inputs: readonly DraftInput[];
  readonly look: Look;
  onChange(inputs: readonly DraftInput[]): void;
}

/** Which column or plate is which force. Long files show the likely ones first. */
export function InputsTable({ inputs, look, onChange }: InputsTableProps) {
  const t = importWords.columns;
  const [all, setAll] = useState(false);
  const sources = look.recording?.sources ?? [];
  const likely = (row: DraftInput) =>
    row.use !== 'no' ||
    look.proposal?.candidates.some(({ input: { from } }) => from.kind === row.kind && from.index === row.index);
  const long = inputs.length > few && inputs.some((row) => likely(row));
  const shown = long && !all ? inputs.filter(likely) : inputs;
  const sided = inputs.some(({ use }) => use === 'left' || use === 'right');
  return (
    <fieldset className="inputs">
      <legend>{t.sources}</legend>
      <ul className="input-rows">
        {shown.map((row) => (
          <InputRow
            key={`${row.kind}-${row.index}`}
            row={row}
            source={sources.find(({ kind, index }) => kind === row.kind && index === row.index)}
            onChange={(next) => onChange(inputs.map((one) => (one === row ? next : one)))}
          />
        ))}
      </ul>
      {sided && inputs.some(({ use }) => use === 'total') && <p className="small soft">{t.totalAndSides}</p>}
      {long && (
        <button type="button" className="link" aria-expanded={all} onClick={() => setAll(!all)}>
          {all ? t.showFew : t.showAll(inputs.length)}
        </button>
      )}
    </fieldset>
  );
}
