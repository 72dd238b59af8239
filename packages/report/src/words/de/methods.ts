import { isJumpProtocol } from '@sthene/core';
import type { methods as english } from '../en/methods.ts';

const number = (value: number) => String(value).replace('.', ',');
const seconds = (value: number) => (value >= 120 && value % 60 === 0 ? `${value / 60} min` : `${number(value)} s`);
const list = (items: readonly string[]) =>
  items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} und ${items.at(-1)}`;

export const methods: typeof english = {
  title: 'Absatz zur Methode',
  heading: 'Test und Ablauf',
  analysis: 'Auswertung',
  references: 'Literatur',
  check: 'In diesem Programm aus dem Gedächtnis genannt; vor dem Druck nachschlagen:',
  readIt:
    'Mit dem vergleichen, was wirklich geschah. Ergänzen, was kein Programm weiß: wer getestet wurde, Einwilligung und Genehmigung, Kalibrierung des Messplatzes und seine Befestigung am Boden.',
  test: ({ test, protocol, cited }) =>
    `Durchgeführt wurde der Test „${test}“${cited} nach dem Ablauf „${protocol.name}“, Version ${protocol.version}.`,
  warmUp: ({ protocol: { warmUp } }) =>
    warmUp.efforts.length === 0
      ? 'Kein submaximaler Versuch des Tests ging voraus.'
      : `Das Aufwärmen endete mit ${warmUp.efforts.length === 1 ? 'einem submaximalen Versuch' : `${warmUp.efforts.length} submaximalen Versuchen`} des Tests bei ${list(warmUp.efforts.map(({ share }) => `${Math.round(100 * share)} %`))} der eigenen Bestleistung, mit ${seconds(warmUp.rest)} Pause nach jedem.`,
  efforts: ({ protocol }) => {
    const { maximal, pull, rest } = protocol;
    const length = isJumpProtocol(protocol) ? '' : ` von ${seconds(pull.seconds)}`;
    return maximal.planned === 0
      ? 'Kein maximaler Versuch wurde gemacht.'
      : `Geplant waren ${maximal.planned} maximale Versuche${length} mit mindestens ${seconds(rest.minimum)} Pause dazwischen; mindestens ${maximal.minimum} mussten zählen, mehr als ${maximal.maximum} wurden nicht gemacht.`;
  },
  cue: ({ protocol: { cue } }) =>
    `Nach dem Zählen von ${cue.count} an lautete das Kommando „${cue.words}“${cue.voice === 'spoken' ? ', vom Gerät gesprochen und mit Ton' : ', mit Ton'}.`,
  extra: ({ protocol }) => {
    const { share, difference } = protocol.extraTrial;
    const jump = isJumpProtocol(protocol);
    if (jump && share === undefined)
      return 'Ein weiterer Sprung wurde verlangt, solange die zwei besten weiter auseinanderlagen, als die Sprungmethode erlaubt.';
    const limit = share === undefined ? `${number(difference)} N` : `${Math.round(100 * share)} % des höheren Werts`;
    return `Ein weiterer Versuch wurde verlangt, solange die zwei ${jump ? 'besten Sprünge' : 'höchsten Spitzen'} um mehr als ${limit} auseinanderlagen.`;
  },
  software: (software, name, version, sha256) =>
    `Die Kraft wurde mit ${software} nach der Methode „${name}“, Version ${version}, ausgewertet (SHA-256 der Methode ${sha256}).`,
  raw: 'Die Kraft wurde nicht gefiltert.',
  filtered: (cutoff) =>
    `Die Kraft wurde mit einem Butterworth-Tiefpass zweiter Ordnung vorwärts und rückwärts gefiltert (ohne Phasenverschiebung; insgesamt −3 dB bei ${cutoff} Hz).`,
  weighing: (window, search, clearance) =>
    `Die Grundlinie war das Mittel eines Fensters von ${window} s ruhigen Stehens, das höchstens ${search} s vor dem halben Anstieg der Kraft endete und ${clearance} s Abstand zum Anstieg hielt; das Körpergewicht stammt aus der Wägung, einer Angabe oder diesem Mittel, wie jedes Ergebnis sagt.`,
  noWeight: (window, search) =>
    `Die Grundlinie war das Mittel eines ruhigen Fensters von ${window} s, das höchstens ${search} s vor dem halben Anstieg der Kraft endete; der Test trägt kein Körpergewicht.`,
  onset: (title, cited) => `Der Kraftbeginn wurde nach der Regel „${title}“ bestimmt${cited}.`,
  onsetOwn: 'Diese Definition stammt vom Programm selbst.',
  letters:
    'In den Definitionen ist F die gesamte Kraft, W das Körpergewicht, B und S Mittel und SD der Grundlinie, r der Messwert beim halben Anstieg, e das Ende des Versuchs, o der Kraftbeginn, p der Messwert der Spitzenkraft F_p und fs die Abtastrate.',
  value: (rule) => `Wert einer Sitzung: ${rule}.`,
  checks: (n) =>
    `Jeder Versuch wurde von ${n} automatischen Prüfungen beurteilt (Tabelle). Ein Versuch, der eine nicht besteht, wird wiederholt oder ausgelassen, einer, an dem eine zweifelt, noch einmal angesehen; eine Person kann beides mit Name und Grund überstimmen, die erhalten bleiben.`,
  gravity: (g) => `Die örtliche Fallbeschleunigung betrug ${g} m/s².`,
  values: 'Werte',
  valueHead: { value: 'Wert', unit: 'Einheit', definition: 'Definition (englisch)', source: 'Quelle' },
  ownDefinition: 'eigene',
  checkTable: 'Prüfungen mit ihren Grenzen',
  checkHead: { check: 'Prüfung', limits: 'Grenzen', source: 'Quelle' },
  noLimits: 'aus dem Ablauf',
  limit: {
    warn: 'noch einmal ansehen',
    fail: 'wiederholen',
    warnShareOfWeight: 'noch einmal ansehen, Anteil des Körpergewichts',
    failShareOfWeight: 'wiederholen, Anteil des Körpergewichts',
    warnShareOfPeak: 'noch einmal ansehen, Anteil der Spitze',
    failShareOfPeak: 'wiederholen, Anteil der Spitze',
    warnSds: 'noch einmal ansehen, SD der Grundlinie',
    failSds: 'wiederholen, SD der Grundlinie',
    shareOfRange: 'Anteil des Bereichs',
    run: 'Messwerte in Folge',
    shortest: 'kürzeste',
    longest: 'längste',
    warnShareOfHeight: 'noch einmal ansehen, Anteil der Höhe',
  },
};
