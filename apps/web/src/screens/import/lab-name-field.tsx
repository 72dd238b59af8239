import { useId } from 'react';
import { importWords } from '../../words/importing.ts';

/** Where no lab is set up yet: its name, with one that works as it is. */
export function LabNameField({ name, setName }: { name: string; setName: (name: string) => void }) {
  const t = importWords.lab;
  const id = useId();
  return (
    <div className="field lab-name-field">
      <label htmlFor={id}>{t.label}</label>
      <input
        id={id}
        value={name}
        placeholder={t.preset}
        maxLength={100}
        autoComplete="organization"
        aria-describedby={`${id}help`}
        onChange={(event) => setName(event.target.value)}
      />
      <p id={`${id}help`} className="small soft">
        {t.help}
      </p>
    </div>
  );
}
