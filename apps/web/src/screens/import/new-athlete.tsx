import { useId } from 'react';
import { importWords } from '../../words/importing.ts';
import type { Who } from './state.ts';

type New = Who & { kind: 'new' };

/** Names and code of a new athlete, filled from what was typed. */
export function NewAthlete({ who, onChange }: { who: New; onChange: (who: New) => void }) {
  const t = importWords.athlete;
  const id = useId();
  return (
    <div className="new-athlete">
      <div className="field">
        <label htmlFor={`${id}given`}>{t.givenName}</label>
        <input
          id={`${id}given`}
          value={who.givenName}
          maxLength={100}
          autoComplete="off"
          onChange={(event) => onChange({ ...who, givenName: event.target.value })}
        />
      </div>
      <div className="field">
        <label htmlFor={`${id}family`}>{t.familyName}</label>
        <input
          id={`${id}family`}
          value={who.familyName}
          maxLength={100}
          autoComplete="off"
          onChange={(event) => onChange({ ...who, familyName: event.target.value })}
        />
      </div>
      <div className="field">
        <label htmlFor={`${id}code`}>{t.code}</label>
        <input
          id={`${id}code`}
          value={who.code}
          maxLength={40}
          autoComplete="off"
          aria-describedby={`${id}help`}
          onChange={(event) => onChange({ ...who, code: event.target.value })}
        />
        <p id={`${id}help`} className="small soft">
          {t.codeHelp}
        </p>
      </div>
    </div>
  );
}
