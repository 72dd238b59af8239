import { useId, useState } from 'react';
import { usePreference } from '../data/use-preference.ts';
import { Icon } from '../parts/icon.tsx';
import { Menu } from '../parts/menu.tsx';
import { words } from '../words/index.ts';

/** Who is acting: a small field, kept as a preference, asked again wherever it is missing. */
export function SignedAs() {
  const [name, keep] = usePreference('signed-as');
  const [draft, setDraft] = useState(name ?? '');
  const id = useId();
  const { app } = words;
  return (
    <Menu
      label={name ? `${app.signedAs} ${name}` : app.notSigned}
      face={
        <>
          <Icon name="pen" />
          <span className="menu-words">{name ?? app.notSigned}</span>
        </>
      }
      align="end"
    >
      {(close) => (
        <form
          className="menu-form"
          onSubmit={(event) => {
            event.preventDefault();
            keep(draft.trim());
            close();
          }}
        >
          <label htmlFor={id}>{app.yourName}</label>
          <input
            id={id}
            value={draft}
            maxLength={100}
            autoComplete="name"
            onChange={(event) => setDraft(event.target.value)}
          />
          <p className="small soft">{app.signHelp}</p>
          <button type="submit" className="button main">
            {app.keep}
          </button>
        </form>
      )}
    </Menu>
  );
}
