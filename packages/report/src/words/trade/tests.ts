import { protocolRegistry, type SetupField } from '@sthene/core';
import type { Language } from '../../model/document.ts';

const tests: Readonly<Record<string, string>> = {
  imtp: 'Isometrischer Zug von der Oberschenkelmitte',
  'imtp-explosive': 'Isometrischer Zug von der Oberschenkelmitte, explosiv',
  'imtp-left': 'Isometrischer Zug von der Oberschenkelmitte, linkes Bein',
  'imtp-right': 'Isometrischer Zug von der Oberschenkelmitte, rechtes Bein',
  'isometric-squat': 'Isometrische Kniebeuge',
  'isometric-squat-left': 'Isometrische Kniebeuge, linkes Bein',
  'isometric-squat-right': 'Isometrische Kniebeuge, rechtes Bein',
  'isometric-effort': 'Isometrische Anspannung',
  'hip-adduction-left': 'Hüftadduktion, links',
  'hip-adduction-right': 'Hüftadduktion, rechts',
  'hip-abduction-left': 'Hüftabduktion, links',
  'hip-abduction-right': 'Hüftabduktion, rechts',
  'hamstring-left': 'Isometrische Kniebeugung (Hamstrings), links',
  'hamstring-right': 'Isometrische Kniebeugung (Hamstrings), rechts',
  'calf-left': 'Isometrische Wade, links',
  'calf-right': 'Isometrische Wade, rechts',
  'upper-body-pull-left': 'Oberkörper, Zug, links',
  'upper-body-pull-right': 'Oberkörper, Zug, rechts',
  'upper-body-push-left': 'Oberkörper, Druck, links',
  'upper-body-push-right': 'Oberkörper, Druck, rechts',
  'countermovement-jump': 'Sprung mit Ausholbewegung',
  'squat-jump': 'Sprung aus der Hocke',
  'drop-jump': 'Niedersprung',
  'repeated-hops': 'Wiederholte Prellsprünge',
  'countermovement-jump-loaded': 'Sprung mit Ausholbewegung und Zusatzlast',
  'squat-jump-loaded': 'Sprung aus der Hocke mit Zusatzlast',
  'countermovement-jump-left': 'Sprung mit Ausholbewegung, linkes Bein',
  'countermovement-jump-right': 'Sprung mit Ausholbewegung, rechtes Bein',
};

/** Title of a test. */
export const testTitle = (id: string, language: Language): string =>
  (language === 'de' ? tests[id] : undefined) ?? protocolRegistry.get(id)?.title ?? id.replaceAll('-', ' ');

const fields: Readonly<Record<string, string>> = {
  knee_angle: 'Kniewinkel (180 ist gestreckt)',
  hip_angle: 'Hüftwinkel (180 ist gestreckt)',
  bar_height: 'Höhe der Stange über den Platten',
  bar_pin: 'Bolzen oder Loch des Gestells',
  grip: 'Griff',
  grip_width: 'Abstand der Hände',
  straps: 'Zughilfen',
  stance_width: 'Abstand der Fersen',
  belt: 'Gewichthebergürtel',
  footwear: 'Schuhe',
  bar_position: 'Stange auf dem Rücken',
  balance_help: 'Hilfe beim Gleichgewicht',
  free_leg: 'Haltung des freien Beins',
  position: 'Haltung des Körpers und des Gelenks',
  joint_angle: 'Gelenkwinkel',
  lever_arm: 'Hebelarm',
  fixation: 'Wie Körper und Kraftaufnehmer befestigt sind',
  limb: 'Seite',
  cue_words: 'Worte des Kommandos, wie gesprochen',
  familiarisation: 'Erste Sitzung mit diesem Test',
  notes: 'Anmerkungen',
  arms: 'Arme',
  depth: 'Tiefe der Ausholbewegung',
  box_height: 'Höhe des Kastens über den Platten',
  load: 'Zusatzlast',
  load_kind: 'Art der Zusatzlast',
};

const choices: Readonly<Record<string, string>> = {
  clean: 'Obergriff',
  mixed: 'gemischt',
  hook: 'Daumenklemme',
  none: 'keine',
  straps: 'Zughilfen',
  'straps and tape': 'Zughilfen und Tape',
  high: 'hoch',
  low: 'tief',
  'finger tips': 'Fingerspitzen',
  'one hand': 'eine Hand',
  left: 'links',
  right: 'rechts',
  both: 'beide',
  'hands on hips': 'Hände an der Hüfte',
  'arm swing': 'mit Armschwung',
  'hands on the bar': 'Hände an der Stange',
  'self-chosen': 'frei gewählt',
  'to a mark': 'bis zu einer Marke',
  'bar on the back': 'Stange auf dem Rücken',
  'hexagonal bar': 'Sechskantstange',
  dumbbells: 'Kurzhanteln',
  vest: 'Weste',
  yes: 'ja',
  no: 'nein',
};

const known = new Map(protocolRegistry.all.flatMap(({ setupFields }) => setupFields).map((one) => [one.id, one]));

/** Title of a setup field; a field of the lab's own keeps the title it was given. */
export function fieldTitle({ id, title }: Pick<SetupField, 'id' | 'title'>, language: Language): string {
  const own = known.get(id)?.title !== title;
  return language === 'de' && !own ? (fields[id] ?? title) : title;
}

/** A choice of a setup field as people read it. */
export const choiceText = (choice: string, language: Language): string =>
  language === 'de' ? (choices[choice] ?? choice) : choice;

/** What differs between sessions, by the titles the station names. */
export function unlikeTitle(title: string, language: Language): string {
  if (language === 'en') return title;
  if (title === 'Method') return 'Methode';
  if (title === 'Rig') return 'Messplatz';
  if (title === 'Local gravity') return 'Örtliche Fallbeschleunigung';
  const field = [...known.values()].find((one) => one.title === title);
  return field === undefined ? title : (fields[field.id] ?? title);
}
