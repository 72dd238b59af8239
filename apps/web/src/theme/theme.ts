import { readPreference, writePreference } from '../data/preferences.ts';

/** What a person may choose. `system` follows colour scheme and contrast of the operating system. */
export const themeChoices = ['system', 'light', 'dark', 'contrast'] as const;
export type ThemeChoice = (typeof themeChoices)[number];

const wantsContrast = () => matchMedia('(prefers-contrast: more)').matches;

/** The stored choice, else `system`. */
export function chosenTheme(): ThemeChoice {
  const stored = readPreference('theme');
  return themeChoices.find((choice) => choice === stored) ?? 'system';
}

/** Applies a choice to the document; the stylesheet does the rest. */
export function applyTheme(choice: ThemeChoice): void {
  const root = document.documentElement;
  if (choice === 'system' && wantsContrast()) root.dataset.theme = 'contrast';
  else if (choice === 'system') delete root.dataset.theme;
  else root.dataset.theme = choice;
  dispatchEvent(new Event('themechange'));
}

/** Stores and applies a choice. */
export function chooseTheme(choice: ThemeChoice): void {
  writePreference('theme', choice);
  applyTheme(choice);
}

/** Applies the stored choice now and keeps following the system. */
export function startTheme(): void {
  applyTheme(chosenTheme());
  for (const query of ['(prefers-contrast: more)', '(prefers-color-scheme: dark)'])
    matchMedia(query).addEventListener('change', () => applyTheme(chosenTheme()));
}
