import { en } from './en.ts';

/** The catalogue in use. One language so far; a second one is a file of the same shape. */
export const words: typeof en = en;

/** Words of a reason code; an unknown (newer) code is shown as it is. */
export const reasonWords = (code: string): string => words.reasons[code] ?? code.replaceAll('-', ' ');

/** Words of an onset rule. */
export const ruleWords = (id: string): string => words.rules[id] ?? id.replaceAll('-', ' ');

/** Words of a test. */
export const testWords = (id: string): string => words.tests[id] ?? id.replaceAll('-', ' ');
