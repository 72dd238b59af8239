import { useId, useState } from 'react';
import { useLab } from '../app/lab.ts';
import { usePreference } from '../data/use-preference.ts';
import { dayWords } from '../words/day.ts';

/** Signs in the example lab for whoever has not said who they are: nothing there needs to be answered for. */
export const guest = 'Guest';

/** Asks for a name where acts are signed and nobody has said who is acting; nothing is shown once that is known. */
export function SignFirst() {
  const [name, keep] = usePreference('signed-as');
  const [draft, setDraft] = useState('');
  const id = useId();
  const t = dayWords.sign;
  const lab = useLab();
  if (name || lab === 'example') return null;
  return (
    <div className="band no-print">
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if (draft.trim()) keep(draft.trim());
        }}
      >
        <div className="field">
          <label htmlFor={id}>{t.label}</label>
          <input
            id={id}
            value={draft}
            maxLength={100}
            autoComplete="name"
            onChange={(event) => setDraft(event.target.value)}
          />
        </div>
        <button type="submit" className="button">
          {t.keep}
        </button>
      </form>
      <p className="small soft">{t.help}</p>
    </div>
  );
}

/** The name that signs; '' while nobody has given one. In the example lab a guest may act. */
export function useSigned(): string {
  const [name] = usePreference('signed-as');
  const lab = useLab();
  return name || (lab === 'example' ? guest : '');
}
