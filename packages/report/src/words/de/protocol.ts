import { isJumpProtocol, protocolRegistry, secondsText, valueText } from '@sthene/core';
import type { protocol as english } from '../en/protocol.ts';

const comma = (said: string) => said.replace(/(\d)\.(\d)/g, '$1,$2');

export const protocol: typeof english = {
  title: (test) => `Blatt zum Ablauf: ${test}`,
  subject: (name, version) => `${name}, Version ${version}`,
  blanks: ['Datum', 'Ort und Messplatz', 'Leitung', 'Hilfsperson'],
  first: 'Zuallererst',
  how: 'Schritt für Schritt',
  submaximal: (share, band, rest) => `Submaximal mit ${comma(share)} (auf ${comma(band)} genau), danach ${rest} Pause`,
  maximal: (n, seconds, rest) =>
    seconds === undefined
      ? `${n === 1 ? '1 maximaler Sprung' : `${n} maximale Sprünge`}, nach jedem ${rest} Pause`
      : `${n === 1 ? '1 maximaler Zug' : `${n} maximale Züge`} von ${comma(seconds)}, nach jedem ${rest} Pause`,
  limits: (minimum, maximum) => `Mindestens ${minimum} müssen zählen; nach ${maximum} ist Schluss.`,
  say: (n) =>
    n === 0
      ? 'Wörtlich sagen:'
      : `Zählen ${Array.from({ length: n }, (_, i) => n - i).join(', ')}, dann wörtlich sagen:`,
  stop: '„Stopp. Loslassen.“',
  stopJump: '„Stopp. Am Boden bleiben.“',
  rules(document) {
    const { maximal, rest, extraTrial, stop, test } = document;
    const jump = isJumpProtocol(document);
    if (maximal.planned === 0) return [];
    const unit = protocolRegistry.get(test.id)?.parameters?.unit ?? 'N';
    const limit =
      extraTrial.share === undefined
        ? valueText(extraTrial.difference, 'force', unit)
        : `${valueText(extraTrial.share, 'share')} des besten`;
    const fallen =
      stop.fall === undefined
        ? ''
        : ` oder einem Abfall um ${valueText(stop.fall, 'share')} unter den besten des Tages`;
    const what = stop.act === 'close' ? 'enden die maximalen Versuche' : 'wird zum Aufhören geraten';
    const rejected =
      stop.rejectedInARow === 1
        ? `1 abgewiesenen ${jump ? 'Sprung' : 'Zug'}`
        : `${stop.rejectedInARow} abgewiesenen ${jump ? 'Sprüngen' : 'Zügen'} in Folge`;
    const extra =
      jump && extraTrial.share === undefined
        ? 'Ein Sprung mehr, solange die zwei besten weiter auseinanderliegen, als die Sprungmethode erlaubt.'
        : `Ein ${jump ? 'Sprung' : 'Zug'} mehr, solange die zwei besten um mehr als ${limit} auseinanderliegen.`;
    return [
      `${secondsText(rest.minimum)} Pause dazwischen; nach ${secondsText(rest.maximum)} kommt zuerst ein submaximaler Versuch.`,
      extra,
      `Nach ${rejected}${fallen} ${what}.`,
    ].map(comma);
  },
  setup: 'Einstellung jeder Person',
  name: 'Name',
  weight: 'Körpergewicht',
  efforts: 'Versuche, die zählten',
  yesNo: 'ja / nein',
  needed: '* nötig',
  hash: (sha256) => `SHA-256 ${sha256}`,
};
