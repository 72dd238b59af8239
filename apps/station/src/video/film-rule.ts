import type { VideoSettings } from '@sthene/contract';

/** Whether somebody may be filmed, and the sentence that says why or why not. */
export interface FilmRule {
  readonly allowed: boolean;
  readonly words: string;
}

/**
 * Nobody under 18 is filmed without a consent on record that is in force for this test, whatever a device asks for. Who is not known
 * yet is not filmed either.
 */
export function filmRule(
  who: { readonly unknown: boolean; readonly minor: boolean; readonly consent: boolean },
  { minors }: Pick<VideoSettings, 'minors'>,
): FilmRule {
  if (who.unknown) return { allowed: false, words: 'Not filmed: it is not known yet who is on the rig.' };
  if (!who.minor) return { allowed: true, words: 'May be filmed.' };
  if (minors === 'never') return { allowed: false, words: 'Not filmed: this lab films nobody under 18.' };
  if (!who.consent) return { allowed: false, words: 'Not filmed: under 18, and no consent in force is on record.' };
  return { allowed: true, words: 'May be filmed: a consent is on record.' };
}
