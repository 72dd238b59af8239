import type { battery as english } from '../en/battery.ts';

export const battery: typeof english = {
  title: 'Testbatterie',
  lead: (tests, day, ratios) =>
    `${tests} ${tests === 1 ? 'Test' : 'Tests'} bis zum ${day}, daraus ${ratios} ${ratios === 1 ? 'Verhältniszahl' : 'Verhältniszahlen'}.`,
  apart: (days) =>
    `Die Tests einer Verhältniszahl liegen höchstens ${days} Tage auseinander; ein Wert ist das Mittel der Versuche einer Sitzung, die zählen.`,
  tests: 'Durchgeführte Tests',
  ratios: 'Verhältniszahlen, jede neben ihren Teilen',
  head: {
    test: 'Getestet',
    when: 'Tag',
    metric: 'Messgröße',
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
    eccentric_utilisation_ratio: 'Exzentrischer Nutzungsquotient',
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
  profileLegend: (r2, loads) =>
    `r² ${r2} über nur ${loads} Lasten; jenseits der Punkte ist die Gerade extrapoliert und gestrichelt`,
  profileLack: {
    'no-loads': () => 'kein Sprung mit Last',
    'loads-not-written': () => 'nicht angegeben; zu keinem Sprung mit Last ist die Last aufgeschrieben',
    'too-few-loads': (loads, needed) =>
      `keine Gerade: ${loads} ${loads === 1 ? 'Last' : 'Lasten'}, nötig sind ${needed}`,
    'no-push-off': () => 'nicht angegeben; der Abdruckweg dieses Sprungs ist nicht bekannt',
    'no-fit': () => 'keine Gerade: die Kraft fällt über diese Lasten nicht mit der Geschwindigkeit',
  },
  loadMissing: (n) =>
    n === 1
      ? '1 Sitzung ohne aufgeschriebene Last bleibt außen vor'
      : `${n} Sitzungen ohne aufgeschriebene Last bleiben außen vor`,
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
    pushOff: 'Abdruckweg',
  },
  pushOffFrom: { plates: 'wie von den Platten gemessen', given: 'wie angegeben' },
  profileSource: 'Mittlere Kraft und Geschwindigkeit des Abdrucks: Samozino et al. 2008, J Biomech 41:2940-2945.',
  notice: 'Was diese Zahlen nicht sagen',
  notices: [
    'Eine Verhältniszahl ist keine Diagnose und kein Trainingsplan: Gleiche Indizes verbergen ungleiche Menschen, darum zuerst beide Teile lesen.',
    'Ob der dynamische Kraftindex das Training lenken soll, ist umstritten; anders gerechnet gibt er oft anderen Rat.',
    'Was eine Ausholbewegung bringt, sagt wenig über die Leistung; ein Einsinken vor dem Sprung aus der Hocke zieht die Zahl gegen 1.',
  ],
  errors:
    'Typischer Fehler: aus einer übernommenen Studie oder den Sitzungen der Gruppe und dieser Person; die Fehler der Teile gelten als unabhängig.',
  errorsOfTrials:
    '* Aus den Versuchen dieser einen Sitzung: Der Tag steckt nicht darin, von Tag zu Tag ist der Fehler größer.',
  massWithheld:
    'Der bilaterale Index des Zugs und das Kraft-Geschwindigkeits-Profil fehlen auf dieser Seite: Neben ihren Kräften verrieten sie die Körpermasse.',
};
