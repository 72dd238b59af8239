import type { battery as english } from '../en/battery.ts';

export const battery: typeof english = {
  title: 'Testbatterie',
  lead: (tests, day, ratios) =>
    `${tests} ${tests === 1 ? 'Test' : 'Tests'} bis zum ${day}, daraus ${ratios} ${ratios === 1 ? 'Verhältniszahl' : 'Verhältniszahlen'}.`,
  apart: (days) =>
    `Die Tests einer Verhältniszahl liegen höchstens ${days} Tage auseinander; ein Wert ist das Mittel der Versuche einer Sitzung, die zählen.`,
  tests: 'Gemachte Tests',
  ratios: 'Verhältniszahlen, jede neben ihren Teilen',
  head: {
    test: 'Getestet',
    when: 'Tag',
    metric: 'Wert von',
    value: 'Wert',
    error: 'Typischer Fehler',
    n: 'Versuche',
    ratio: 'Verhältniszahl',
    word: 'Besagt',
    side: 'Aus',
  },
  ofMaximal: (n, of) => `${n} von ${of}`,
  names: {
    dynamic_strength_index: 'Dynamischer Kraftindex',
    eccentric_utilisation_ratio: 'Exzentrische Nutzung',
    bilateral_index: 'Bilateraler Index des Zugs',
  },
  made: {
    dynamic_strength_index: 'Spitzenkraft des Sprungs durch Spitzenkraft des Zugs, Körpergewicht in beiden',
    eccentric_utilisation_ratio: 'Höhe mit Ausholbewegung durch Höhe aus der Hocke',
    bilateral_index: 'beide Beine gegen die Summe der einzelnen, ohne Körpergewicht',
  },
  roles: {
    jump: 'Sprung',
    isometric: 'Zug',
    countermovement: 'mit Ausholbewegung',
    squat: 'aus der Hocke',
    both: 'beide Beine',
    left: 'linkes Bein',
    right: 'rechtes Bein',
  },
  word: {
    strength: 'über 0,80: Schwerpunkt Maximalkraft',
    balanced: '0,60 bis 0,80: ausgewogen',
    ballistic: 'unter 0,60: Schwerpunkt Schnellkraft',
    gain: 'die Ausholbewegung bringt Höhe',
    'no-gain': 'die Ausholbewegung bringt keine Höhe',
    deficit: 'Defizit: zusammen weniger als einzeln',
    facilitation: 'zusammen mehr als einzeln',
    undecided: 'unentschieden',
  },
  because: {
    'interval-crosses': 'das Intervall enthält eine Grenze',
    'isometric-low': 'der Zug war nicht der übliche',
    'no-error': 'der Fehler ist noch nicht bekannt',
  },
  caution: {
    'first-session': 'ein Test wurde zum ersten Mal gemacht',
    'days-apart': 'zwischen den Tests liegen Tage',
    'arms-differ': 'die Arme wurden nicht gleich gehalten',
    dip: 'ein Sprung aus der Hocke, der zählt, sank vor dem Abdruck ein',
    'squat-jump-used': 'aus dem Sprung aus der Hocke, der hier schlechter wiederholbar ist',
    'error-of-trials': 'ein Fehler stammt aus den Versuchen einer Sitzung; von Tag zu Tag ist er größer',
  },
  mind: (ratio, cautions) => `${ratio}: ${cautions}.`,
  lack: {
    'test-missing': (tests) => `nicht angegeben; keine Sitzung: ${tests}`,
    'no-value': (tests) => `nicht angegeben; kein Versuch, der zählt: ${tests}`,
    'too-far-apart': (tests, days) => `nicht angegeben; ${days} Tage auseinander: ${tests}`,
    'other-method': (tests) => `nicht angegeben; nach verschiedenen Methoden beurteilt: ${tests}`,
  },
  received: (n) =>
    n === 1
      ? '1 übernommene Sitzung ohne Kurven wird nicht damit vermischt'
      : `${n} übernommene Sitzungen ohne Kurven werden nicht damit vermischt`,
  figure: 'Verhältniszahlen mit 95-%-Intervallen',
  figureLegend: 'Punkt: Wert. Balken: 95-%-Intervall aus den typischen Fehlern der Teile. Striche: Grenzen.',
  figureAlt: (said) => `${said}; alle Zahlen stehen in der Tabelle.`,
  profile: 'Kraft und Geschwindigkeit der Sprünge mit Last',
  profileLegend: (r2, loads) => `r² ${r2} über nur ${loads} Lasten; jenseits der Punkte ist die Gerade gestrichelt`,
  profileNone: 'keine fallende Gerade durch die Punkte',
  profileLoose: 'r² liegt unter 0,95: die Gerade wird gezeigt und nicht verwendet',
  profileAlt: (loads, said) =>
    `Mittlere Kraft über mittlerer Geschwindigkeit von Sprüngen mit ${loads} Lasten. ${said}`,
  load: (kilograms) => `${kilograms}\u00a0kg`,
  facts: {
    f0: 'Kraft ohne Bewegung, F0',
    v0: 'Geschwindigkeit ohne Kraft, V0',
    powerMax: 'Größte Leistung',
    r2: 'r² der Geraden',
    loads: 'Lasten',
  },
  notice: 'Was diese Zahlen nicht sagen',
  notices: [
    'Eine Verhältniszahl ist keine Diagnose und kein Trainingsplan: Gleiche Indizes verbergen ungleiche Menschen, darum zuerst beide Teile lesen.',
    'Ob der dynamische Kraftindex das Training lenken soll, ist umstritten; anders gerechnet gibt er oft anderen Rat.',
    'Was eine Ausholbewegung bringt, sagt wenig über die Leistung; ein Einsinken vor dem Sprung aus der Hocke zieht die Zahl gegen 1.',
  ],
  errors:
    'Typischer Fehler: aus einer übernommenen Studie oder den Sitzungen der Gruppe und dieser Person; die Fehler der Teile gelten als unabhängig.',
  netWithheld: 'Kräfte ohne Körpergewicht fehlen auf der Seite: Neben denen mit Gewicht verrieten sie die Körpermasse.',
};
