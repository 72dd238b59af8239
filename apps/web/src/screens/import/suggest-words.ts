import { numberText } from '../../number/format.ts';
import { importWords } from '../../words/importing.ts';
import type { Why } from './worker/messages.ts';

/** A reason of the proposed test in words. */
export function whyWords(why: Why): string {
  const t = importWords.suggest;
  switch (why.code) {
    case 'standing':
      return t.standing(numberText(why.newtons, 0));
    case 'unloaded':
      return t.unloaded;
    case 'flight':
      return t.flight;
    case 'jump':
      return t.jump;
    case 'not-newtons':
      return t.notNewtons;
    case 'one-side':
      return t.oneSide(why.side);
    case 'one-effort':
      return t.oneEffort;
    case 'efforts':
      return t.efforts(why.count);
    case 'trials':
      return t.trials;
    case 'no-effort':
      return t.none;
    case 'remembered':
      return t.remembered;
  }
}
