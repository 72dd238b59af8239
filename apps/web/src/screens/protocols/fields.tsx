import { type ProtocolAdvice, type ProtocolFault, protocolField, rangeText } from '@sthene/core';
import { createContext, type ReactNode, useContext, useId } from 'react';
import { Icon } from '../../parts/icon.tsx';
import { protocolWords } from '../../words/protocols.ts';

const t = protocolWords.edit;

/** What was found in the draft; each field shows what stands at its own path. */
export interface Findings {
  readonly faults: readonly ProtocolFault[];
  readonly advice: readonly ProtocolAdvice[];
}

const Found = createContext<Findings>({ faults: [], advice: [] });

export function FindingsBelow({ value, children }: { value: Findings; children: ReactNode }) {
  return <Found.Provider value={value}>{children}</Found.Provider>;
}

/** The line under a field: its fault, else what deserves a thought. */
export function FindingLine({ id, at }: { id: string; at: string }) {
  const { faults, advice } = useContext(Found);
  const fault = faults.find((one) => one.at === at);
  const thought = fault === undefined ? advice.find((one) => one.at === at) : undefined;
  if (fault === undefined && thought === undefined) return null;
  return (
    <p id={id} className={fault ? 'field-error small' : 'field-advice small'}>
      <Icon name={fault ? 'fail' : 'warn'} size={14} /> {fault?.words ?? thought?.words}
    </p>
  );
}

function useFinding(at: string) {
  const { faults, advice } = useContext(Found);
  const wrong = faults.some((one) => one.at === at);
  return { wrong, said: wrong || advice.some((one) => one.at === at) };
}

interface TextProps {
  readonly at: string;
  readonly label: string;
  readonly value: string;
  readonly hint?: string;
  readonly hideLabel?: boolean;
  readonly long?: boolean;
  readonly most?: number;
  onChange(value: string): void;
}

export function TextInput({ at, label, value, hint, hideLabel = false, long = false, most, onChange }: TextProps) {
  const id = useId();
  const { wrong, said } = useFinding(at);
  const shared = {
    id,
    value,
    placeholder: hint,
    'aria-invalid': wrong,
    ...(most === undefined ? {} : { maxLength: most }),
    ...(said ? { 'aria-describedby': `${id}said` } : {}),
  };
  return (
    <div className="field">
      <label htmlFor={id} className={hideLabel ? 'unseen' : undefined}>
        {label}
      </label>
      {long ? (
        <textarea {...shared} rows={2} onChange={(event) => onChange(event.target.value)} />
      ) : (
        <input {...shared} autoComplete="off" onChange={(event) => onChange(event.target.value)} />
      )}
      <FindingLine id={`${id}said`} at={at} />
    </div>
  );
}

interface NumberProps {
  /** Path in the document. */
  readonly at: string;
  readonly label?: string;
  readonly value: string;
  readonly unit?: string;
  onChange(value: string): void;
}

/** A number of the catalogue: its title, unit and limits come from there. */
export function NumberInput({ at, label, value, unit, onChange }: NumberProps) {
  const id = useId();
  const field = protocolField(at);
  const { wrong, said } = useFinding(at);
  if (field === undefined) return null;
  const shown = unit ?? t.units[field.unit];
  return (
    <div className="field number-field">
      <label htmlFor={id}>{label ?? field.title}</label>
      <div className="number-with-unit">
        <input
          id={id}
          value={value}
          inputMode="decimal"
          autoComplete="off"
          aria-invalid={wrong}
          aria-describedby={said ? `${id}said` : `${id}limits`}
          onChange={(event) => onChange(event.target.value)}
        />
        {shown !== '' && <span aria-hidden="true">{shown}</span>}
      </div>
      <p id={`${id}limits`} className="limits">
        {rangeText(field.low, field.high, field.unit)}
        {field.optional ? `; ${t.noRule}` : ''}
      </p>
      <FindingLine id={`${id}said`} at={at} />
    </div>
  );
}

interface SelectProps<T extends string> {
  readonly at: string;
  readonly label: string;
  readonly value: T;
  readonly options: Readonly<Record<T, string>>;
  onChange(value: T): void;
}

export function SelectInput<T extends string>({ at, label, value, options, onChange }: SelectProps<T>) {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <select id={id} value={value} onChange={(event) => onChange(event.target.value as T)}>
        {(Object.entries(options) as [T, string][]).map(([code, words]) => (
          <option key={code} value={code}>
            {words}
          </option>
        ))}
      </select>
      <FindingLine id={`${id}said`} at={at} />
    </div>
  );
}

interface RowsProps<T> {
  readonly at: string;
  readonly items: readonly T[];
  readonly nameOf: (i: number) => string;
  readonly add: string;
  readonly fresh: T;
  readonly most: number;
  readonly row: (item: T, i: number, set: (item: T) => void) => ReactNode;
  onChange(items: readonly T[], field: string): void;
}

/** A list that grows, shrinks and changes its order by buttons. */
export function Rows<T>({ at, items, nameOf, add, fresh, most, row, onChange }: RowsProps<T>) {
  const swapped = (i: number) => {
    const next = [...items];
    [next[i - 1], next[i]] = [next[i] as T, next[i - 1] as T];
    return next;
  };
  return (
    <div className="rows">
      <ol>
        {items.map((item, i) => (
          <li key={i}>
            <div className="row-fields">{row(item, i, (next) => onChange(items.with(i, next), `${at}.${i}`))}</div>
            <div className="row-acts">
              <button
                type="button"
                className="button quiet square"
                disabled={i === 0}
                aria-label={t.up(nameOf(i))}
                title={t.up(nameOf(i))}
                onClick={() => onChange(swapped(i), `${at} order ${i} ${Date.now()}`)}
              >
                <span className="turn-up">
                  <Icon name="left" size={16} />
                </span>
              </button>
              <button
                type="button"
                className="button quiet square"
                aria-label={t.take(nameOf(i))}
                title={t.take(nameOf(i))}
                onClick={() => onChange(items.toSpliced(i, 1), `${at} take ${Date.now()}`)}
              >
                <Icon name="close" size={16} />
              </button>
            </div>
          </li>
        ))}
      </ol>
      <FindingLine id={`${at}-rows`} at={at} />
      {items.length < most && (
        <button type="button" className="button" onClick={() => onChange([...items, fresh], `${at} add ${Date.now()}`)}>
          <Icon name="plus" size={16} /> {add}
        </button>
      )}
    </div>
  );
}
