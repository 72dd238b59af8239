import { useId, useState } from 'react';
import { importWords } from '../../words/importing.ts';
import { type DraftInput, manyByName } from './draft.ts';
import { InputRow } from './input-row.tsx';
import type { Look } from './worker/messages.ts';

const few = 6;
const many = 24;

interface InputsTableProps {
  readonly inputs: readonly DraftInput[];
  readonly look: Look;
  onChange(inputs: readonly DraftInput[]): void;
}

/** Which column or plate is which force. Long files show the likely ones first. */
export function InputsTable({ inputs, look, onChange }: InputsTableProps) {
  const t = importWords.columns;
  const [all, setAll] = useState(false);
  const [typed, setTyped] = useState('');
  const id = useId();
  const sources = look.recording?.sources ?? [];
  const likely = (row: DraftInput) =>
    row.use !== 'no' ||
    row.kind === 'platform' ||
    look.proposal?.candidates.some(
      ({ input: { from }, confidence }) =>
        (confidence !== 'unsure' || !manyByName(look)) && from.kind === row.kind && from.index === row.index,
    );
  const long = inputs.length > few && inputs.some((row) => likely(row));
  const offered = long && !all ? inputs.filter(likely) : inputs;
  const wanted = typed.trim().toLowerCase();
  const named = offered.filter((row) => row.use !== 'no' || row.name.toLowerCase().includes(wanted));
  const shown = named.slice(0, many);
  const sided = inputs.some(({ use }) => use === 'left' || use === 'right');
  return (
    <fieldset className="inputs">
      <legend>{t.sources}</legend>
      {offered.length > many && (
        <div className="field">
          <label htmlFor={id}>{t.filter}</label>
          <input id={id} type="search" value={typed} onChange={(event) => setTyped(event.target.value)} />
        </div>
      )}
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
      {named.length > shown.length && <p className="small soft">{t.beyond(named.length - shown.length)}</p>}
      {sided && inputs.some(({ use }) => use === 'total') && <p className="small soft">{t.totalAndSides}</p>}
      {long && (
        <button type="button" className="link" aria-expanded={all} onClick={() => setAll(!all)}>
          {all ? t.showFew : t.showAll(inputs.length)}
        </button>
      )}
    </fieldset>
  );
}
