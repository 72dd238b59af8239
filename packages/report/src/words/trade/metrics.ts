import { metricFacts } from '@sthene/core';
import type { Language } from '../../model/document.ts';

const side: Readonly<Record<string, string>> = { left: 'links', right: 'rechts' };

/** Metrics of jumps with their German titles. */
const jumpTitles: Readonly<Record<string, string>> = {
  jump_height: 'Sprunghöhe',
  jump_height_flight_time: 'Sprunghöhe aus der Flugzeit',
  jump_height_difference: 'Höhe aus der Flugzeit minus Höhe aus dem Kraftstoß',
  jump_rise_before_take_off: 'Anstieg vor dem Abheben',
  jump_height_with_rise: 'Sprunghöhe vom Stand, mit dem Anstieg vor dem Abheben',
  jump_height_work_energy: 'Sprunghöhe aus der Arbeit',
  contact_time: 'Bodenkontaktzeit',
  reactive_strength_index: 'Reaktivkraftindex',
  reactive_strength_index_impulse: 'Reaktivkraftindex, Höhe aus dem Kraftstoß',
  reactive_strength_ratio: 'Flugzeit zu Bodenkontaktzeit',
  touchdown_velocity: 'Geschwindigkeit beim Aufsetzen',
  drop_height: 'Fallhöhe',
  contact_peak_force: 'Spitzenkraft des Bodenkontakts',
  contact_peak_force_relative: 'Spitzenkraft des Bodenkontakts je kg',
  hop_rsi_best_five: 'Reaktivkraftindex, beste fünf Prellsprünge',
  hop_contact_time_best_five: 'Bodenkontaktzeit, beste fünf Prellsprünge',
  hop_height_best_five: 'Höhe der besten fünf Prellsprünge',
  hop_stiffness_best_five: 'Vertikale Steifigkeit, beste fünf Prellsprünge',
  hop_rsi_mean: 'Reaktivkraftindex, alle Prellsprünge',
  hop_height_highest: 'Höchster Prellsprung',
  hop_count: 'Prellsprünge',
  time_to_take_off: 'Zeit bis zum Abheben',
  flight_time: 'Flugzeit',
  rsi_modified: 'Modifizierter Reaktivkraftindex',
  flight_contraction_ratio: 'Flugzeit zu Kontraktionszeit',
  unweighting_time: 'Dauer der Entlastung',
  braking_time: 'Dauer des Abbremsens',
  propulsion_time: 'Dauer des Abdrucks',
  landing_time: 'Dauer der Landung',
  take_off_velocity: 'Abhebegeschwindigkeit',
  jump_momentum: 'Sprungimpuls',
  peak_velocity: 'Höchste Geschwindigkeit',
  peak_negative_velocity: 'Höchste Abwärtsgeschwindigkeit',
  countermovement_depth: 'Tiefe der Ausholbewegung',
  unweighting_impulse_net: 'Kraftstoß der Entlastung netto',
  braking_impulse_net: 'Kraftstoß des Abbremsens netto',
  propulsion_impulse_net: 'Kraftstoß des Abdrucks netto',
  jump_impulse_net: 'Kraftstoß des Sprungs netto',
  lowest_force: 'Kleinste Kraft der Entlastung',
  force_at_lowest_position: 'Kraft am tiefsten Punkt',
  braking_peak_force: 'Spitzenkraft des Abbremsens',
  braking_peak_force_relative: 'Spitzenkraft des Abbremsens je kg',
  braking_mean_force: 'Mittlere Kraft des Abbremsens',
  braking_mean_force_relative: 'Mittlere Kraft des Abbremsens je kg',
  propulsion_peak_force: 'Spitzenkraft des Abdrucks',
  propulsion_peak_force_relative: 'Spitzenkraft des Abdrucks je kg',
  propulsion_mean_force: 'Mittlere Kraft des Abdrucks',
  propulsion_mean_force_relative: 'Mittlere Kraft des Abdrucks je kg',
  braking_rfd: 'RFD des Abbremsens',
  braking_stiffness: 'Steifigkeit der Beine beim Abbremsen',
  propulsion_peak_power: 'Höchste Leistung des Abdrucks',
  propulsion_peak_power_relative: 'Höchste Leistung des Abdrucks je kg',
  propulsion_mean_power: 'Mittlere Leistung des Abdrucks',
  propulsion_mean_power_relative: 'Mittlere Leistung des Abdrucks je kg',
  landing_peak_force: 'Spitzenkraft der Landung',
  landing_peak_force_relative: 'Spitzenkraft der Landung je kg',
  landing_impulse: 'Kraftstoß der Landung',
  left_braking_impulse: 'Kraftstoß des Abbremsens links',
  right_braking_impulse: 'Kraftstoß des Abbremsens rechts',
  asymmetry_braking_impulse: 'Asymmetrie des Kraftstoßes beim Abbremsen',
  left_propulsion_impulse: 'Kraftstoß des Abdrucks links',
  right_propulsion_impulse: 'Kraftstoß des Abdrucks rechts',
  asymmetry_propulsion_impulse: 'Asymmetrie des Kraftstoßes beim Abdruck',
  left_propulsion_mean_force: 'Mittlere Kraft des Abdrucks links',
  right_propulsion_mean_force: 'Mittlere Kraft des Abdrucks rechts',
  asymmetry_propulsion_mean_force: 'Asymmetrie der mittleren Kraft beim Abdruck',
  left_landing_peak_force: 'Spitzenkraft der Landung links',
  right_landing_peak_force: 'Spitzenkraft der Landung rechts',
  asymmetry_landing_peak_force: 'Asymmetrie der Spitzenkraft bei der Landung',
  system_weight: 'Gewicht von Körper und Last',
  system_mass: 'Masse von Körper und Last',
};

/** Families of metrics with their German titles; numbers of the id go in. */
const families: readonly (readonly [RegExp, (...parts: string[]) => string])[] = [
  [/^body_weight$/, () => 'Körpergewicht'],
  [/^body_mass$/, () => 'Körpermasse'],
  [/^peak_force$/, () => 'Spitzenkraft'],
  [/^peak_force_net$/, () => 'Spitzenkraft netto'],
  [/^peak_force_relative$/, () => 'Spitzenkraft je kg'],
  [/^peak_force_net_relative$/, () => 'Spitzenkraft netto je kg'],
  [/^peak_force_allometric$/, () => 'Spitzenkraft, auf die Körpergröße bezogen'],
  [/^best_mean_200$/, () => 'Höchste mittlere Kraft über 0,2 s'],
  [/^best_mean_1000$/, () => 'Höchste mittlere Kraft über 1 s'],
  [/^time_to_peak$/, () => 'Zeit bis zur Spitzenkraft'],
  [/^force_at_onset$/, () => 'Kraft bei Kraftbeginn'],
  [/^force_at_(\d+)$/, (ms) => `Kraft bei ${ms} ms`],
  [/^force_net_at_(\d+)$/, (ms) => `Nettokraft bei ${ms} ms`],
  [/^force_at_(\d+)_relative$/, (ms) => `Kraft bei ${ms} ms je kg`],
  [/^force_share_at_(\d+)$/, (ms) => `Anteil der Spitze bei ${ms} ms`],
  [/^rfd_(\d+)_(\d+)$/, (a, b) => (b === '80' ? 'RFD von 20 bis 80 % des Anstiegs' : `RFD von ${a} bis ${b} ms`)],
  [/^rfd_peak_(\d+)$/, (ms) => `Höchste RFD, Fenster ${ms} ms`],
  [/^rfd_average$/, () => 'Mittlere RFD'],
  [/^rfd_0_200_relative$/, () => 'RFD von 0 bis 200 ms, Anteil des Anstiegs'],
  [/^impulse_(\d+)_(\d+)$/, (a, b) => `Kraftstoß von ${a} bis ${b} ms`],
  [/^impulse_net_(\d+)_(\d+)$/, (a, b) => `Kraftstoß netto von ${a} bis ${b} ms`],
  [/^force_loss$/, () => 'Kraftverlust bis zum Ende'],
  [/^(left|right)_force_at_peak$/, (s = '') => `Kraft ${side[s]} bei der Spitze`],
  [/^(left|right)_peak_force$/, (s = '') => `Spitzenkraft ${side[s]}`],
  [/^(left|right)_force_at_(\d+)$/, (s = '', ms) => `Kraft ${side[s]} bei ${ms} ms`],
  [/^(left|right)_impulse_(\d+)_(\d+)$/, (s = '', a, b) => `Kraftstoß ${side[s]} von ${a} bis ${b} ms`],
  [/^asymmetry_at_peak$/, () => 'Asymmetrie bei der Spitze'],
  [/^asymmetry_net_at_peak$/, () => 'Asymmetrie netto bei der Spitze'],
  [/^asymmetry_mean_force$/, () => 'Asymmetrie der mittleren Kraft'],
  [/^asymmetry_impulse_(\d+)_(\d+)$/, (a, b) => `Asymmetrie des Kraftstoßes von ${a} bis ${b} ms`],
  [/^standing_share_right$/, () => 'Standlast rechts'],
];

/** Ratios of tests, which no single trial gives. */
const ratioTitles: Readonly<Record<string, Readonly<Record<Language, string>>>> = {
  dynamic_strength_index: { en: 'Dynamic strength index', de: 'Dynamischer Kraftindex' },
  eccentric_utilisation_ratio: { en: 'Eccentric utilisation ratio', de: 'Exzentrischer Nutzungsquotient' },
};

/** Title of a metric or a ratio; one that the catalogue does not know keeps the English one of its definition. */
export function metricTitle(id: string, language: Language): string {
  const ofRatio = ratioTitles[id]?.[language];
  if (ofRatio !== undefined) return ofRatio;
  if (language === 'de') {
    const ofJump = jumpTitles[id];
    if (ofJump !== undefined) return ofJump;
    for (const [pattern, title] of families) {
      const found = pattern.exec(id);
      if (found !== null) return title(...found.slice(1));
    }
  }
  return metricFacts.get(id)?.title ?? id;
}
