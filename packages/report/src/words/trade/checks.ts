import { checkFacts } from '@sthene/core';
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
  weighing_window: ['Eine ruhige Sekunde zum Wiegen', 'Keine ruhige Sekunde zum Wiegen'],
  weighing_steady: ['Still beim Wiegen', 'Nicht still beim Wiegen'],
  weighing_slope: ['Gleichbleibend beim Wiegen', 'Die Kraft wanderte beim Wiegen'],
  weighing_halves: ['Beide Hälften wiegen gleich', 'Die Hälften des Wiegens unterscheiden sich'],
  weight_agreement: ['Wiegt so viel wie zuvor', 'Wiegt anders als zuvor'],
  jump_false_start: ['Ein einziger Beginn', 'Der Sprung begann zweimal'],
  squat_jump_dip: ['Kein Einsinken vor dem Sprung aus der Hocke', 'Ein Einsinken vor dem Sprung aus der Hocke'],
  squat_jump_dip_depth: ['Kein Absinken vor dem Sprung aus der Hocke', 'Der Körper sank vor dem Sprung ab'],
  squat_jump_hold: ['Hocke still gehalten', 'Die Hocke war nicht still'],
  no_countermovement: ['Ausholbewegung vorhanden', 'Es gibt keine Ausholbewegung'],
  jump_early: ['Kommando vor dem Sprung abgewartet', 'Der Sprung begann vor dem Kommando'],
  zero_in_flight: ['Null hielt im Flug', 'Die Platten zeigten im Flug nicht null'],
  flight_length: ['Ein Flug von üblicher Länge', 'Ein zu kurzer oder zu langer Flug'],
  height_agreement: ['Beide Höhen stimmen überein', 'Höhe aus Flug und aus Kraftstoß widersprechen sich'],
  rest_after_landing: ['Ruhe nach der Landung', 'Keine Ruhe nach der Landung'],
  contact_length: ['Ein schneller Bodenkontakt', 'Der Bodenkontakt war lang'],
  drop_from_box: ['Aus der Höhe des Kastens gefallen', 'Die Fallhöhe war nicht die des Kastens'],
  hops_enough: ['Genug schnelle Prellsprünge', 'Zu wenige schnelle Prellsprünge'],
  jump_other_foot: ['Anderer Fuß beim Abdruck in der Luft', 'Der andere Fuß drückte mit'],
  jump_saturation: ['Im Bereich der Platte, mit Landung', 'Eine Platte war im Sprung am Anschlag'],
  jump_gap: ['Keine fehlenden Messwerte im Sprung', 'Im Sprung fehlen Messwerte'],
  jump_sample_rate: ['Schnell genug gemessen für einen Sprung', 'Zu wenige Messwerte je Sekunde für einen Sprung'],
  sample_rate: ['Schnell genug gemessen', 'Zu wenige Messwerte je Sekunde'],
};

/** Title of a check: what is so when it passes. */
export const checkTitle = (id: string, language: Language): string =>
  (language === 'de' ? german[id]?.[0] : undefined) ?? checkFacts.get(id)?.title ?? id;

/** What is so when a check does not pass. */
export const checkFinding = (id: string, language: Language): string =>
  (language === 'de' ? german[id]?.[1] : undefined) ?? checkFacts.get(id)?.finding ?? id;
