import { metricRegistry } from '@sthene/core';
import type { Language } from '../../model/document.ts';

const side: Readonly<Record<string, string>> = { left: 'links', right: 'rechts' };

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

/** Title of a metric; one that the catalogue does not know keeps the English one of its definition. */
export function metricTitle(id: string, language: Language): string {
  if (language === 'de')
    for (const [pattern, title] of families) {
      const found = pattern.exec(id);
      if (found !== null) return title(...found.slice(1));
    }
  return metricRegistry.get(id)?.title ?? id;
}
