import { useEffect, useState } from 'react';
import { usePreference } from '../../data/use-preference.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { liveWords as words } from '../../words/live.ts';
import { isFixed, type KeyAct, keyActs, keysFrom, keysText, mayBeKey, usualKeys, withKey, withoutKey } from './keys.ts';
import { useSwitch } from './screen-settings.tsx';
import './keys.css';

/** The keys of the Floor: what each does, and the way to change it. They are kept on this device. */
export function KeysDialog({ onClose }: { onClose: () => void }) {
  const { keys: say } = words;
  const [text, keep] = usePreference('floor-keys');
  const [letters, setLetters] = useSwitch('letter-keys', true);
  const [waiting, setWaiting] = useState<KeyAct>();
  const [clash, setClash] = useState<string>();
  const keys = keysFrom(text);
  useEffect(() => {
    if (waiting === undefined) return;
    const press = (event: KeyboardEvent) => {
      if (!mayBeKey(event.key)) return;
      event.preventDefault();
      event.stopPropagation();
      setWaiting(undefined);
      if (event.key === 'Escape') return;
      const made = withKey(keysFrom(text), waiting, event.key);
      if ('clash' in made) setClash(say.clash(keyName(event.key), say.acts[made.clash]));
      else keep(keysText(made));
    };
    addEventListener('keydown', press, true);
    return () => removeEventListener('keydown', press, true);
  }, [waiting, text, keep, say]);
  return (
    <Dialog title={say.title} onClose={onClose}>
      <p className="small soft">{say.help}</p>
      <table className="keys-table">
        <tbody>
          {keyActs.map((act) => (
            <tr key={act}>
              <th scope="row">{say.acts[act]}</th>
              <td>
                {keys[act].map((key) =>
                  isFixed(act, key) ? (
                    <kbd key={key}>{keyName(key)}</kbd>
                  ) : (
                    <button
                      key={key}
                      type="button"
                      className="button key-now"
                      data-off={!letters && /^[a-z]$/.test(key)}
                      aria-label={say.remove(keyName(key), say.acts[act])}
                      onClick={() => keep(keysText(withoutKey(keys, act, key)))}
                    >
                      {keyName(key)} <span aria-hidden="true">&times;</span>
                    </button>
                  ),
                )}
                <button
                  type="button"
                  className="button quiet"
                  aria-label={say.addTo(say.acts[act])}
                  onClick={() => {
                    setClash(undefined);
                    setWaiting(act);
                  }}
                >
                  {waiting === act ? say.press : say.add}
                </button>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p role="alert" className="field-error">
        {clash}
      </p>
      <label className="menu-choice">
        <input type="checkbox" checked={letters} onChange={(event) => setLetters(event.target.checked)} />
        {words.settings.letters}
      </label>
      <div className="dialog-acts">
        <button type="button" className="button main big" onClick={onClose}>
          {say.close}
        </button>
        <button
          type="button"
          className="button big"
          disabled={text === undefined || text === keysText(usualKeys)}
          onClick={() => keep(keysText(usualKeys))}
        >
          {say.usual}
        </button>
      </div>
    </Dialog>
  );
}

/** A key as it is printed on it. */
export const keyName = (key: string): string =>
  words.keys.names[key as keyof typeof words.keys.names] ?? (key.length === 1 ? key.toUpperCase() : key);
