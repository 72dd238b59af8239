import { checkFacts } from '../../facts/facts.ts';
import type { SetupField } from '../protocol.ts';
import { protocolRegistry } from '../registry.ts';
import type { SubmaximalEffort } from '../running.ts';
import { valueText } from './amount.ts';
import type { ProtocolCheck, ProtocolDocument } from './document.ts';
import { protocolField } from './fields.ts';

const titles: Readonly<Record<string, string>> = {
  name: 'Name',
  summary: 'Summary',
  'test.id': 'Test',
  'test.version': 'Version of the test',
  'warmUp.confirm': 'Ask whether the warm-up was done',
  'cue.words': 'Words of the cue',
  'cue.voice': 'Voice of the cue',
  'stop.act': 'What follows a stop rule',
};

/** What a place of a document is called. */
export function titleAt(at: string, ...documents: readonly ProtocolDocument[]): string {
  const known = titles[at] ?? protocolField(at)?.title;
  if (known !== undefined) return known;
  const [group = '', id = '', place = ''] = at.split('.');
  const number = Number(place || id) + 1;
  if (group === 'checks') return `Check: ${checkFacts.get(id)?.title ?? id}`;
  if (group === 'setupFields') {
    const field = documents.flatMap(({ setupFields }) => setupFields).findLast((one) => one.id === id);
    return `Setup field: ${field?.title ?? id}`;
  }
  if (group === 'localRules') return `Local rule ${number}`;
  if (at.startsWith('warmUp.steps')) return `Warm-up step ${number}`;
  if (at.startsWith('warmUp.efforts')) return `Submaximal effort ${number}`;
  return at;
}

/** A value of a document as people read it. */
export function sayValue(at: string, value: unknown): string {
  const field = protocolField(at);
  if (field !== undefined && typeof value === 'number') return valueText(value, field.unit);
  if (at === 'test.id') return protocolRegistry.get(String(value))?.title ?? String(value);
  if (at === 'cue.voice') return value === 'spoken' ? 'tone and voice' : 'tone';
  if (at === 'stop.act') return value === 'close' ? 'the maximal efforts end' : 'it is advised';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (at.startsWith('warmUp.efforts.')) return sayEffort(value as SubmaximalEffort);
  if (at.startsWith('checks.')) return sayCheck(value as ProtocolCheck);
  if (at.startsWith('setupFields.')) return saySetupField(value as SetupField);
  return String(value);
}

const sayEffort = ({ share, band, weightShare }: SubmaximalEffort): string =>
  `${valueText(share, 'share')} within ${valueText(band, 'share')}, or of ${valueText(weightShare, 'weights')} without an own best`;

const limitTitles: Readonly<Record<string, string>> = {
  warn: 'Limit to look again',
  fail: 'Limit to repeat',
  warnShareOfWeight: 'Limit to look again, as a share of body weight',
  failShareOfWeight: 'Limit to repeat, as a share of body weight',
  warnShareOfPeak: 'Limit to look again, as a share of the peak',
  failShareOfPeak: 'Limit to repeat, as a share of the peak',
  warnSds: 'Limit to look again, in SDs of the baseline',
  failSds: 'Limit to repeat, in SDs of the baseline',
  shareOfRange: 'Share of the range at which a plate is full',
  shortest: 'Shortest',
  longest: 'Longest',
  warnShareOfHeight: 'Limit to look again, as a share of the height',
  run: 'Equal samples in a row that mean a full plate',
};

/** What a limit of a check is called; an unknown one keeps its id. */
export const limitTitle = (limit: string): string => limitTitles[limit] ?? limit;

const lowered = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

function sayCheck({ use, limits = {} }: ProtocolCheck): string {
  if (!use) return 'off';
  const said = Object.entries(limits).map(([limit, value]) => `${lowered(limitTitle(limit))} ${value}`);
  return said.length === 0 ? 'on' : `on, ${said.join(', ')}`;
}

const kinds: Readonly<Record<SetupField['kind'], string>> = {
  number: 'a number',
  choice: 'a choice',
  text: 'a text',
  'yes-no': 'yes or no',
};

const saySetupField = ({ title, kind, unit, choices, required }: SetupField): string =>
  `${title}, ${kinds[kind]}${unit === undefined ? '' : ` in ${unit}`}${choices === undefined ? '' : ` of ${choices.join(', ')}`}${required ? ', needed' : ''}`;
