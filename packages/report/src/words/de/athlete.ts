import type { athlete as english } from '../en/athlete.ts';

export const athlete: typeof english = {
  title: 'Krafttest',
  sentence: (difference, reference) => `${difference} gegenüber ${reference}.`,
  of: (when) => ` vom ${when}`,
  noise: (detectable) =>
    `In 95 von 100 Fällen unterscheiden sich zwei Tests von jemandem, der sich nicht verändert hat, um weniger als ${detectable}.`,
  why: {
    stronger: 'Ein wahrer Gewinn jenseits der kleinsten lohnenden Änderung ist mit mindestens 95 % wahrscheinlich.',
    'probably stronger':
      'Ein wahrer Gewinn jenseits der kleinsten lohnenden Änderung ist zu 90 bis 95 % wahrscheinlich.',
    weaker: 'Ein wahrer Verlust jenseits der kleinsten lohnenden Änderung ist mit mindestens 95 % wahrscheinlich.',
    'probably weaker':
      'Ein wahrer Verlust jenseits der kleinsten lohnenden Änderung ist zu 90 bis 95 % wahrscheinlich.',
    unchanged: 'Eine wahre Änderung, kleiner als lohnend, ist mit mindestens 75 % wahrscheinlich.',
    "inside the test's noise": 'Der Unterschied ist nicht größer als die Streuung von Test zu Test.',
    'cannot tell yet':
      'Mehr als die Streuung zweier Tests, aber noch nicht sicher mehr, als sich lohnt. Noch einmal testen.',
  },
  byStep: (word) =>
    `Nach den Zahlen allein: ${word}. Nicht alles war gleich, darum behauptet das Wort eine Stufe weniger.`,
  unlike: (titles) => `Nicht gleich: ${titles}.`,
  noWord: 'Noch kein Wort zu einer Änderung: Dazu braucht es mehr Sitzungen oder eine Gruppe mit bekannter Streuung.',
  noWordMark: 'Neuester Wert',
  noValue: 'Keine Sitzung hat diesen Wert: Kein maximaler Versuch, der zählt, enthält ihn.',
  minor: 'Unter 18: Die Seite enthält keine Körpermasse und keinen Platz unter anderen.',
  unknownAge:
    'Kein Geburtsdatum hinterlegt, darum wie für jemanden unter 18: keine Körpermasse, kein Platz unter anderen.',
  figure: (metric) => `${metric} im Verlauf`,
  figureAlt: (metric, n, from, to, newest, band) =>
    `${metric} aus ${n} Sitzungen vom ${from} bis zum ${to}. Die neueste liegt bei ${newest}.${band}`,
  figureBand: (low, high) => ` Ohne Änderung wird sie zwischen ${low} und ${high} erwartet.`,
  band: 'Grau: hier wird der neueste Wert mit 95 % erwartet, wenn sich nichts geändert hat',
  first: 'offener Kreis: erste Sitzung, zum Kennenlernen des Tests',
  newest: 'neueste',
  best: 'beste',
  restsOn: 'Worauf das Wort beruht',
  facts: {
    interval: 'Wahre Änderung, 95 %',
    probabilities: 'Gewinn, weder noch, Verlust',
    error: 'Typischer Fehler des Tests',
    errorOf: (df) => `${df} Freiheitsgrade`,
    rigs: 'Verstärkung zweier Messplätze oder zweier Prüfungen',
    worthwhile: 'Kleinste lohnende Änderung',
    worthwhileNone: 'nicht bekannt: jede Größe zählt',
    confirmable: 'Kleinster Gewinn, den der Test bestätigt',
    confirmableNote: 'in vier von fünf Fällen',
    chance: 'Sichere Worte durch Zufall',
    chanceOf: (n) => `${n} von 100, die sich nicht änderten`,
    best: 'Eigene Bestleistung',
  },
  sessions: 'Sitzungen, neueste zuerst',
  head: { when: 'Sitzung', value: 'Wert', sd: 'SD', n: 'Versuche', note: 'Neben der neuesten' },
  ofMaximal: (n, of) => `${n} von ${of}`,
  nothingCounts: 'nichts zählt',
  note: { newest: 'neueste', best: 'beste', first: 'Kennenlernen', alike: 'gleich' },
  differs: (titles) => `anders: ${titles}`,
  more: (n) =>
    n === 1
      ? '1 frühere Sitzung fehlt in der Tabelle, nicht im Bild.'
      : `${n} frühere Sitzungen fehlen in der Tabelle, nicht im Bild.`,
  made: 'Wie die Zahl entstand',
  madeOf: (rule, filter, onset) => `Wert einer Sitzung: ${rule}. Filter: ${filter}. Kraftbeginn: ${onset}.`,
  madeNoise:
    'Streuung: zwischen den Sitzungen der Gruppe und dieser Person, ohne die erste Sitzung. Die Wahrscheinlichkeiten gelten bei flacher Vorannahme; sie sind keine Fehlerraten.',
};
