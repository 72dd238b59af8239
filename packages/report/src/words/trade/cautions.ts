import { type ProtocolDocument, protocolRegistry } from '@sthene/core';
import type { Language } from '../../model/document.ts';

/** Cautions, warm-up steps and the like of this program by their English words. What a lab wrote itself stays as it was written. */
const german: Readonly<Record<string, string>> = {
  'Local rules and the judgement of licensed professionals come first; this list replaces neither.':
    'Örtliche Regeln und das Urteil zugelassener Fachleute gehen vor; diese Liste ersetzt beides nicht.',
  'Screen the health of everyone before a first test. After injury or illness, test only with medical clearance.':
    'Vor dem ersten Test die Gesundheit aller abklären. Nach Verletzung oder Krankheit nur mit ärztlicher Freigabe testen.',
  'No maximal effort without a warm-up that ends with submaximal efforts of this test.':
    'Kein maximaler Versuch ohne Aufwärmen, das mit submaximalen Versuchen dieses Tests endet.',
  'Stop at once on pain, dizziness, numbness, a change in vision, chest symptoms, or when the athlete wishes it. No further maximal effort that day after pain.':
    'Sofort aufhören bei Schmerz, Schwindel, Taubheit, verändertem Sehen, Beschwerden in der Brust oder auf Wunsch der Person. Nach Schmerz an diesem Tag kein maximaler Versuch mehr.',
  'Let the athlete breathe; keep efforts short and rest between them. Holding the breath raises blood pressure sharply.':
    'Atmen lassen; Versuche kurz halten, dazwischen ruhen. Angehaltener Atem treibt den Blutdruck stark hoch.',
  'Minors take part with the consent of a parent or guardian and their own.':
    'Minderjährige nehmen mit Einwilligung der Erziehungsberechtigten und ihrer eigenen teil.',
  'A result is not a diagnosis and does not by itself decide on a return to sport.':
    'Ein Ergebnis ist keine Diagnose und entscheidet nicht allein über die Rückkehr in den Sport.',
  'Check rack, bar, pins and plates before the first athlete. Nobody stands in line with the bar.':
    'Gestell, Stange, Bolzen und Platten vor der ersten Person prüfen. Niemand steht in der Linie der Stange.',
  'A spotter stands by. Take the slack out before the cue, keep the back in its neutral position, never jerk.':
    'Eine Hilfsperson steht bereit. Vor dem Kommando das Spiel herausnehmen, den Rücken in neutraler Haltung lassen, nie reißen.',
  'Straps must open at once and by the athlete alone: no knots, nothing tied to the rack.':
    'Zughilfen müssen sich sofort und ohne Hilfe öffnen lassen: keine Knoten, nichts am Gestell befestigt.',
  'Groin pain before or during the effort ends the test; whether to test it again is for a professional.':
    'Schmerzen in der Leiste vor oder während der Anspannung beenden den Test; ob er wiederholt wird, entscheidet eine Fachperson.',
  'Hamstrings can cramp or strain in a maximal effort: build up over submaximal efforts, stop on a pull.':
    'Die hintere Oberschenkelmuskulatur kann bei maximaler Anspannung krampfen oder zerren: über submaximale Versuche steigern, bei einem Ziehen aufhören.',
  'Fix the load cell and its line before the first athlete; nobody stands in line with it.':
    'Kraftaufnehmer und Zugstrang vor der ersten Person befestigen; niemand steht in der Zugrichtung.',
  'Fix the load cell or plate before the first athlete; nobody stands in line with it.':
    'Kraftaufnehmer oder Platte vor der ersten Person befestigen; niemand steht in der Druckrichtung.',
  'The plates lie level and fixed, flush with the floor around them or with room to step down; nothing lies in the way of a landing.':
    'Die Platten liegen eben und fest, bündig mit dem Boden oder mit Platz zum Herabsteigen; nichts liegt einer Landung im Weg.',
  'Learn to land softly on both feet at low effort first; the first jumps of a session are submaximal.':
    'Zuerst mit wenig Einsatz weich auf beiden Füßen landen lernen; die ersten Sprünge einer Sitzung sind submaximal.',
  'Stop when landings become stiff, loud or unsteady: tired landings load knees, ankles and back most.':
    'Aufhören, wenn Landungen steif, laut oder unsicher werden: müde Landungen belasten Knie, Sprunggelenke und Rücken am meisten.',
  'The box stands firm and cannot tip or slide. Begin low; a higher box only when the landing from the lower one is safe.':
    'Der Kasten steht fest und kann weder kippen noch rutschen. Niedrig beginnen; höher erst, wenn die Landung vom niedrigeren sicher ist.',
  'Step off the box, never jump off it; somebody stands by.':
    'Vom Kasten herabsteigen, nie abspringen; jemand steht bereit.',
  'A loaded jump only for people who can squat and land with that load; begin without it and add little at a time.':
    'Sprünge mit Zusatzlast nur für Menschen, die damit beugen und landen können; ohne beginnen und in kleinen Schritten steigern.',
  'Spotters or a safe place to drop the weight; the bar stays pressed to the back until after the landing.':
    'Hilfspersonen oder ein sicherer Platz zum Ablegen; die Stange bleibt bis nach der Landung fest am Rücken.',
  'On one leg begin with small jumps; after an injury of the leg only when whoever treats it agrees.':
    'Auf einem Bein mit kleinen Sprüngen beginnen; nach einer Verletzung des Beins nur, wenn die Behandelnden zustimmen.',
  '5 to 10 min of easy movement that ends warm': '5 bis 10 min leichte Bewegung bis zum Warmsein',
  'A few easy efforts in the position of the test': 'Einige leichte Versuche in der Haltung des Tests',
};

/** A caution or a step in the language of the page. */
export const said = (sentence: string, language: Language): string =>
  language === 'de' ? (german[sentence] ?? sentence) : sentence;

/** Every sentence of this program that a sheet may print; a test looks for each of them. */
export const knownSentences = (): string[] => [...new Set(protocolRegistry.all.flatMap(({ cautions }) => cautions))];

/** Rules of the place first, then the cautions of the test. */
export const cautionsOf = ({ test, localRules }: ProtocolDocument, language: Language): string[] => [
  ...localRules,
  ...(protocolRegistry.get(test.id)?.cautions ?? []).map((one) => said(one, language)),
];
