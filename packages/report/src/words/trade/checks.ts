import { checkRegistry } from '@sthene/core';
import type { Language } from '../../model/document.ts';

/** What is so when a check passes, and when it does not. */
const german: Readonly<Record<string, readonly [title: string, finding: string]>> = {
  quiet_baseline: ['Ruhig vor dem Zug', 'Nicht ruhig vor dem Zug'],
  steady_before: ['Stetig vor dem Zug', 'Nicht stetig kurz vor dem Zug'],
  pretension: ['Keine frühe Spannung', 'Spannung an der Stange vor dem Zug'],
  rest_before: ['Aus der Ruhe begonnen', 'Der Zug begann nicht aus der Ruhe'],
  stepped_start: ['Kein stockender Beginn', 'Ein Stocken am Beginn'],
  countermovement: ['Kein Absinken davor', 'Ein Absinken vor dem Zug'],
  onset_agreement: ['Regeln zum Kraftbeginn einig', 'Der Beginn des Zugs ist unklar'],
  stepped_rise: ['Ein glatter Anstieg', 'Der Anstieg fiel zurück und begann neu'],
  double_pull: ['Ein einziger Zug', 'Zwei Züge in einem'],
  sustained_effort: ['Lange genug gehalten', 'Zu früh losgelassen'],
  peak_at_end: ['Spitze nicht zuletzt', 'Am Ende noch im Anstieg'],
  spike: ['Spitze kein Ausreißer', 'Ein Stoß überragt den Zug'],
  early_pull: ['Kommando abgewartet', 'Der Zug begann vor dem Kommando'],
  clipping: ['Im Bereich der Platte', 'Eine Platte war am Anschlag'],
  gap: ['Keine fehlenden Messwerte', 'Messwerte fehlen'],
  lift_off: ['Beide Füße am Boden', 'Ein Fuß verließ seine Platte'],
  other_foot: ['Anderer Fuß in der Luft', 'Der andere Fuß drückte auf seine Platte'],
  zero_after: ['Null kam zurück', 'Die Null kam nicht zurück'],
  noise_for_rfd: ['Ruhig genug für Raten', 'Zu unruhig für frühe Raten'],
  sample_rate: ['Schnell genug gemessen', 'Zu wenige Messwerte je Sekunde'],
};

/** Title of a check: what is so when it passes. */
export const checkTitle = (id: string, language: Language): string =>
  (language === 'de' ? german[id]?.[0] : undefined) ?? checkRegistry.get(id)?.title ?? id;

/** What is so when a check does not pass. */
export const checkFinding = (id: string, language: Language): string =>
  (language === 'de' ? german[id]?.[1] : undefined) ?? checkRegistry.get(id)?.finding ?? id;
