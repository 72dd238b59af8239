import { type ReactNode, useId } from 'react';

interface ChoiceProps {
  readonly label: string;
  readonly value: string;
  readonly question?: string | undefined;
  readonly children: ReactNode;
  onChange(value: string): void;
}

/** A labelled choice; with a question where only a person can answer it. */
export function ChoiceField({ label, value, question, children, onChange }: ChoiceProps) {
  const id = useId();
  return (
    <div className="results-field" data-open={question !== undefined}>
      <label htmlFor={id}>{label}</label>
      <select
        id={id}
        value={value}
        aria-describedby={question === undefined ? undefined : `${id}why`}
        onChange={(event) => onChange(event.target.value)}
      >
        {children}
      </select>
      {question !== undefined && (
        <p id={`${id}why`} className="small">
          {question}
        </p>
      )}
    </div>
  );
}
