import { createContext, type ReactNode, useContext, useId } from 'react';
import type { Fault } from './faults.ts';

const FaultList = createContext<readonly Fault[]>([]);

/** Gives the faults to the fields below; each field shows those of its own path. */
export function Faults({ value, children }: { value: readonly Fault[]; children: ReactNode }) {
  return <FaultList.Provider value={value}>{children}</FaultList.Provider>;
}

const useFaultOf = (path: string) => useContext(FaultList).find((one) => one.path === path)?.words;

interface FieldProps {
  readonly label: string;
  readonly path: string;
  readonly value: string;
  /** The label is read but not seen: in tables, whose head shows it. */
  readonly hideLabel?: boolean;
  onChange(value: string): void;
}

export function TextField({
  label,
  path,
  value,
  onChange,
  hideLabel = false,
  number = false,
  list,
}: FieldProps & { number?: boolean; list?: readonly string[] }) {
  const id = useId();
  const fault = useFaultOf(path);
  return (
    <div className="field">
      <label htmlFor={id} className={hideLabel ? 'unseen' : undefined}>
        {label}
      </label>
      <input
        id={id}
        value={value}
        inputMode={number ? 'decimal' : 'text'}
        autoComplete="off"
        spellCheck={false}
        aria-invalid={fault !== undefined}
        {...(list ? { list: `${id}list` } : {})}
        {...(fault === undefined ? {} : { 'aria-describedby': `${id}fault` })}
        onChange={(event) => onChange(event.target.value)}
      />
      {list && (
        <datalist id={`${id}list`}>
          {list.map((one) => (
            <option key={one} value={one} />
          ))}
        </datalist>
      )}
      <FaultLine id={`${id}fault`} fault={fault} />
    </div>
  );
}

export function ChoiceField({
  label,
  path,
  value,
  options,
  onChange,
  hideLabel = false,
}: FieldProps & { options: Readonly<Record<string, string>> }) {
  const id = useId();
  const fault = useFaultOf(path);
  return (
    <div className="field">
      <label htmlFor={id} className={hideLabel ? 'unseen' : undefined}>
        {label}
      </label>
      <select
        id={id}
        value={value}
        aria-invalid={fault !== undefined}
        {...(fault === undefined ? {} : { 'aria-describedby': `${id}fault` })}
        onChange={(event) => onChange(event.target.value)}
      >
        {!(value in options) && <option value={value}>{value}</option>}
        {Object.entries(options).map(([code, text]) => (
          <option key={code} value={code}>
            {text}
          </option>
        ))}
      </select>
      <FaultLine id={`${id}fault`} fault={fault} />
    </div>
  );
}

/** Faults of everything below a path, each with its place: `matrix.1.2` is told by its row and column. */
export function FaultsUnder({
  id,
  path,
  place = () => '',
}: {
  id: string;
  path: string;
  place?(below: readonly number[]): string;
}) {
  const faults = useContext(FaultList).filter((one) => one.path === path || one.path.startsWith(`${path}.`));
  return (
    <ul id={id} className="field-error small">
      {faults.map((one) => {
        const below = one.path.slice(path.length + 1);
        return (
          <li key={`${one.path}${one.words}`}>
            {place(below === '' ? [] : below.split('.').map(Number))} {one.words}
          </li>
        );
      })}
    </ul>
  );
}

function FaultLine({ id, fault }: { id: string; fault: string | undefined }) {
  return fault === undefined ? null : (
    <p id={id} className="field-error small">
      {fault}
    </p>
  );
}

/** A yes or no. */
export function TickField({
  label,
  value,
  onChange,
}: {
  label: string;
  value: boolean;
  onChange(value: boolean): void;
}) {
  return (
    <label className="check-line">
      <input type="checkbox" checked={value} onChange={(event) => onChange(event.target.checked)} />
      {label}
    </label>
  );
}
