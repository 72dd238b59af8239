import { usePreference } from '../../data/use-preference.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { words } from '../../words/index.ts';
import { videoWords } from '../../words/video.ts';
import './keys.css';

const t = words.keys;
const groups: readonly { title: string; rows: readonly (readonly [string[], string])[] }[] = [
  {
    title: t.groups.curve,
    rows: [
      [['\u2190', '\u2192'], t.list.read],
      [['\u2191', '\u2193'], t.list.series],
      [['Shift+\u2190', 'Shift+\u2192'], t.list.pan],
      [['Home', 'End'], t.list.ends],
    ],
  },
  {
    title: t.groups.view,
    rows: [
      [['+', '\u2212'], t.list.zoom],
      [['0'], t.list.all],
      [['F'], t.list.effort],
      [['R'], t.list.rise],
      [['Y'], t.list.force],
      [['N', 'P'], t.list.events],
      [['A', 'B'], t.list.markers],
      [['X'], t.list.clear],
    ],
  },
  {
    title: videoWords.panel.keys.title,
    rows: [
      [['V'], videoWords.panel.keys.play],
      [[',', '.'], videoWords.panel.keys.step],
    ],
  },
  {
    title: t.groups.act,
    rows: [
      [['O'], t.list.onset],
      [['Ctrl+Z', 'Ctrl+Shift+Z'], t.list.undo],
      [['[', ']'], t.list.trials],
      [['?'], t.list.help],
    ],
  },
];

/** All keys of the screen, and the switch for single letters. */
export function KeysDialog({ onClose }: { onClose: () => void }) {
  const [letters, setLetters] = usePreference('letter-keys');
  return (
    <Dialog title={t.title} onClose={onClose}>
      <div className="keys">
        {groups.map((group) => (
          <section key={group.title}>
            <h3>{group.title}</h3>
            <dl>
              {group.rows.map(([keys, what]) => (
                <div key={what}>
                  <dt>
                    {keys.map((key) => (
                      <kbd key={key}>{key}</kbd>
                    ))}
                  </dt>
                  <dd>{what}</dd>
                </div>
              ))}
            </dl>
          </section>
        ))}
        <label className="menu-choice">
          <input
            type="checkbox"
            checked={letters !== 'off'}
            onChange={(event) => setLetters(event.target.checked ? 'on' : 'off')}
          />
          {t.letters}
        </label>
        <p className="small soft">{t.lettersHelp}</p>
        <button type="button" className="button" onClick={onClose}>
          {t.close}
        </button>
      </div>
    </Dialog>
  );
}
