import type { PreferenceName } from '../../data/preferences.ts';
import { usePreference } from '../../data/use-preference.ts';
import { Menu } from '../../parts/menu.tsx';
import { liveWords as words } from '../../words/live.ts';

/** A switch kept in this browser. */
export function useSwitch(name: PreferenceName, usual: boolean): [boolean, (on: boolean) => void] {
  const [value, keep] = usePreference(name);
  return [value === undefined ? usual : value === 'on', (on) => keep(on ? 'on' : 'off')];
}

/** Sound, voice, flash, body weight and letter keys of this screen. */
export function ScreenSettings({ mayShowWeight }: { mayShowWeight: boolean }) {
  const { settings } = words;
  return (
    <Menu label={settings.title} face={settings.title} align="end">
      {() => (
        <fieldset className="menu-form">
          <legend>{settings.title}</legend>
          <Switch name="cue-sound" usual words={settings.sound} />
          <Switch name="cue-voice" words={settings.voice} />
          <Switch name="cue-flash" usual words={settings.flash} />
          <Switch name="letter-keys" usual words={settings.letters} />
          {mayShowWeight && <Switch name="show-weight" words={settings.weight} />}
        </fieldset>
      )}
    </Menu>
  );
}

function Switch({ name, usual = false, words: text }: { name: PreferenceName; usual?: boolean; words: string }) {
  const [on, keep] = useSwitch(name, usual);
  return (
    <label className="menu-choice">
      <input type="checkbox" checked={on} onChange={(event) => keep(event.target.checked)} />
      {text}
    </label>
  );
}
