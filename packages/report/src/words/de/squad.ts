import type { squad as english } from '../en/squad.ts';

export const squad: typeof english = {
  title: 'Gruppe',
  everybody: 'Alle',
  lead: (n, changed) => `${n} Personen mit einem Wert, ${changed} mit einer Sitzung zum Vergleich.`,
  chance: (words, chance) =>
    `${words} ${words === 1 ? 'heißt' : 'heißen'} stärker oder schwächer; allein durch Zufall sind ${chance} solche Worte zu erwarten, wenn sich niemand geändert hat.`,
  chanceUnit: (words, chance) =>
    `${words} ${words === 1 ? 'bekommt' : 'bekommen'} ein sicheres Wort; allein durch Zufall sind ${chance} zu erwarten, wenn sich niemand geändert hat.`,
  head: {
    person: 'Name',
    value: 'Neuester',
    z: 'z',
    difference: 'Seit der Sitzung davor',
    word: 'Wort',
    last: 'Getestet',
    n: 'Versuche',
  },
  headUnit: (head, unit) => (unit === '' ? head : `${head}, ${unit}`),
  never: 'nie getestet',
  noWord: 'noch kein Wort',
  order: 'In der Folge der Namen. z: Abstand vom Mittel aller mit einem Wert, in SD; nicht für Personen unter 18.',
  minors: (n) => `${n} ${n === 1 ? 'Person' : 'Personen'} unter 18 oder ohne Geburtsdatum: kein Platz in der Gruppe.`,
  minorsMass: (n) =>
    `${n} ${n === 1 ? 'Person fehlt' : 'Personen fehlen'}: Dieser Wert verrät die Körpermasse, und sie sind unter 18 oder ohne Geburtsdatum.`,
  unlike: 'Nicht gleich',
  noFigure: (n) => `Mehr als ${n} Personen: kein Bild; jede Zahl steht in der Tabelle.`,
  figure: (metric) => `${metric}: jetzt und davor`,
  figureAlt: (metric, n, low, high) =>
    `${metric} von ${n} Personen, von ${low} bis ${high}; jede Zahl steht in der Tabelle.`,
  legend:
    'Punkt: neuester Wert. Balken: hier wird er mit 95 % erwartet, wenn sich seit der Sitzung davor (Strich) nichts geändert hat. Fett: ein sicheres Wort.',
  none: 'Niemand aus dieser Gruppe hat diesen Wert.',
};
