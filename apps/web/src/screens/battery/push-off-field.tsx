import { pushOffRange } from '@sthene/contract';
import { type ReactNode, useId, useState } from 'react';
import { batteryWords } from '../../words/battery.ts';
import { pushOffEntry } from './push-off.ts';
import './battery.css';

const t = batteryWords.profile;

interface FieldProps {
  /** What is asked for, cm; empty where it is as the plates measured it. */
  readonly given: string;
  readonly placeholder?: string | undefined;
  readonly help: ReactNode;
  readonly onChange: (centimetres: string) => void;
}

/** A push-off distance in cm. What is none stays in the field and is said to be none; nothing is asked with it. */
export function PushOffField({ given, placeholder, help, onChange }: FieldProps) {
  const id = useId();
  const [typed, setTyped] = useState<string>();
  const shown = typed ?? given;
  const wrong = !pushOffEntry(shown).ok;
  const take = () => {
    const entry = pushOffEntry(shown);
    if (typed === undefined || !entry.ok) return;
    setTyped(undefined);
    if (entry.value !== given) onChange(entry.value);
  };
  return (
    <div className="field battery-push-off">
      <label htmlFor={id}>{t.pushOff}</label>
      <input
        id={id}
        type="text"
        inputMode="decimal"
        value={shown}
        placeholder={placeholder}
        aria-invalid={wrong}
        autoComplete="off"
        aria-describedby={wrong ? `${id}-wrong ${id}-help` : `${id}-help`}
        onChange={(event) => setTyped(event.target.value)}
        onBlur={take}
        onKeyDown={(event) => event.key === 'Enter' && take()}
      />
      {wrong && (
        <span id={`${id}-wrong`} className="field-error" role="alert">
          {t.pushOffWrong(...pushOffRange)}
        </span>
      )}
      <p id={`${id}-help`} className="small soft">
        {help}
      </p>
    </div>
  );
}
