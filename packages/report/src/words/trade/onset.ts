import { jumpOnsetRules, onsetRegistry } from '@sthene/core';
import type { Language } from '../../model/document.ts';

const german: Readonly<Record<string, string>> = {
  'local-line': 'Verlassen der Linie vor dem Anstieg',
  'five-sd': 'Grundlinie + 5 SD',
  'five-sd-floor': 'Grundlinie + 5 SD, mindestens 10 N',
  'three-sd': 'Grundlinie + 3 SD',
  'percent-weight-2.5': 'Grundlinie + 2,5 % des Körpergewichts',
  'percent-weight-5': 'Grundlinie + 5 % des Körpergewichts',
  'percent-weight-10': 'Grundlinie + 10 % des Körpergewichts',
  'fixed-newton-20': 'Grundlinie + 20 N',
  'fixed-newton-40': 'Grundlinie + 40 N',
  'fixed-newton-50': 'Grundlinie + 50 N',
  'fixed-newton-75': 'Grundlinie + 75 N',
  'forward-five-sd': 'Erstes Überschreiten der Grundlinie + 5 SD, 20 ms gehalten',
  slope: 'Steigung über ihrem Mittel + 5 SD in Ruhe',
  'jump-five-sd-back-30': 'Gewicht um 5 SD verlassen, 30 ms zurück',
  'jump-five-sd': 'Gewicht um 5 SD verlassen',
  'jump-percent-weight-2.5': 'Gewicht um 2,5 % verlassen',
  'jump-percent-weight-5': 'Gewicht um 5 % verlassen',
  'jump-contact': 'Erster Bodenkontakt',
  'by-hand': 'Von einer Person gesetzt',
};

/** Title of an onset rule. */
export const onsetTitle = (id: string, language: Language): string =>
  (language === 'de' ? german[id] : undefined) ?? onsetRegistry.get(id)?.title ?? jumpOnsetRules.get(id)?.title ?? id;
