import type { TextLayout } from './options.ts';

const TRIAL_WORD =
  /^(?:rep|reps|repetition|replication|trial|pull|attempt|try|effort|jump|test|set|versuch|essai|prova|intento|tentativa)$/i;

/**
 * Whether columns are channels of one trial or trials of one channel, with the reason in words.
 *
 * Trials: at least two columns of one unit whose names are one trial word with different numbers (`rep01`, `Trial 2`), or at
 * least three whose names are nothing but the numbers 1, 2, 3 ... Everything else is taken as channels.
 */
export function guessLayout(columns: readonly { readonly name: string; readonly unit: string }[]): {
  layout: TextLayout;
  reason: string;
} {
  const units = new Set(columns.map((column) => column.unit));
  const parts = columns.map((column) => /^(.*?)[\s_.#-]*(\d+)$/s.exec(column.name.trim()));
  if (columns.length >= 2 && units.size === 1 && parts.every((part) => part !== null)) {
    const words = new Set(parts.map((part) => part![1]!.toLowerCase()));
    const numbers = new Set(parts.map((part) => Number(part![2])));
    const word = [...words][0]!;
    if (words.size === 1 && numbers.size === columns.length) {
      const last = word.split(/[\s_.-]+/).at(-1) ?? '';
      if (TRIAL_WORD.test(last)) {
        return { layout: 'trials', reason: `The columns are numbered "${word}", so each is taken as one trial.` };
      }
      if (word === '' && columns.length >= 3) {
        return { layout: 'trials', reason: 'The columns are only numbered, so each is taken as one trial.' };
      }
    }
  }
  return { layout: 'channels', reason: 'The columns are taken as channels of one trial.' };
}
