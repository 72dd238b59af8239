import { useState } from 'react';
import { Icon } from '../parts/icon.tsx';
import { Menu } from '../parts/menu.tsx';
import { chooseTheme, chosenTheme, type ThemeChoice, themeChoices } from '../theme/theme.ts';
import { words } from '../words/index.ts';

/** Light, dark, high contrast, or as the system says. */
export function ThemeSwitch() {
  const [choice, setChoice] = useState<ThemeChoice>(chosenTheme);
  return (
    <Menu label={words.app.theme} face={<Icon name="theme" />} align="end">
      {() => (
        <fieldset className="menu-form">
          <legend>{words.app.theme}</legend>
          {themeChoices.map((one) => (
            <label key={one} className="menu-choice">
              <input
                type="radio"
                name="theme"
                checked={choice === one}
                onChange={() => {
                  setChoice(one);
                  chooseTheme(one);
                }}
              />
              {words.app.themes[one]}
            </label>
          ))}
        </fieldset>
      )}
    </Menu>
  );
}
