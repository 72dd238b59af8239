import type { Language } from '../model/document.ts';
import { de } from './de/index.ts';
import { en } from './en/index.ts';

/** Every word of the reports. A word that one language lacks is an error of the type check. */
export type Words = typeof en;
export const catalogue: Readonly<Record<Language, Words>> = { en, de };
