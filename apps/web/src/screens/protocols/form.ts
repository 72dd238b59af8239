import {
  checkFacts,
  checkFactsOf,
  defaultJumpMethod,
  defaultMethod,
  type ProtocolDocument,
  protocolField,
  protocolFields,
  type SetupField,
} from '@sthene/core';

/** A submaximal effort as it is typed. */
export interface EffortForm {
  readonly share: string;
  readonly band: string;
  readonly weightShare: string;
}

/** A setup field as it is typed; an empty id is made from the title. */
export interface SetupForm {
  readonly id: string;
  readonly title: string;
  readonly kind: SetupField['kind'];
  readonly unit: string;
  readonly choices: string;
  readonly required: boolean;
}

/** What stands in the editor: numbers as texts, in the unit they are shown in. */
export interface ProtocolForm {
  readonly name: string;
  readonly summary: string;
  readonly note: string;
  readonly test: ProtocolDocument['test'];
  readonly steps: readonly string[];
  readonly confirm: boolean;
  readonly efforts: readonly EffortForm[];
  /** Numbers by path. */
  readonly numbers: Readonly<Record<string, string>>;
  readonly cueWords: string;
  readonly voice: ProtocolDocument['cue']['voice'];
  readonly act: ProtocolDocument['stop']['act'];
  readonly checks: Readonly<
    Record<string, { readonly use: boolean; readonly limits: Readonly<Record<string, string>> }>
  >;
  readonly setupFields: readonly SetupForm[];
  readonly localRules: readonly string[];
}

/** The numbers that stand alone, in the order of the document. */
export const numberPaths = protocolFields.map(({ path }) => path).filter((path) => !path.includes('*'));

const scaleOf = (path: string) => (protocolField(path)?.unit === 'share' ? 100 : 1);
const textOf = (path: string, value: number | undefined) =>
  value === undefined ? '' : String(Number((value * scaleOf(path)).toFixed(6)));

function valueAt(document: ProtocolDocument, path: string): number | undefined {
  let at: unknown = document;
  for (const name of path.split('.')) at = (at as Record<string, unknown> | undefined)?.[name];
  return typeof at === 'number' ? at : undefined;
}

export function formOf(document: ProtocolDocument): ProtocolForm {
  const at = 'warmUp.efforts.0';
  return {
    name: document.name,
    summary: document.summary,
    note: '',
    test: document.test,
    steps: document.warmUp.steps,
    confirm: document.warmUp.confirm,
    efforts: document.warmUp.efforts.map(({ share, band, weightShare }) => ({
      share: textOf(`${at}.share`, share),
      band: textOf(`${at}.band`, band),
      weightShare: textOf(`${at}.weightShare`, weightShare),
    })),
    numbers: Object.fromEntries(numberPaths.map((path) => [path, textOf(path, valueAt(document, path))])),
    cueWords: document.cue.words,
    voice: document.cue.voice,
    act: document.stop.act,
    checks: Object.fromEntries(
      checkFactsOf(document.test.id).map(({ id }) => {
        const own = document.checks[id];
        const limits = { ...usualLimits(id), ...own?.limits };
        const texts = Object.fromEntries(Object.entries(limits).map(([limit, value]) => [limit, String(value)]));
        return [id, { use: own?.use ?? usualCheck(id) !== undefined, limits: texts }];
      }),
    ),
    setupFields: document.setupFields.map(({ id, title, kind, unit, choices, required }) => ({
      id,
      title,
      kind,
      unit: unit ?? '',
      choices: choices?.join(', ') ?? '',
      required,
    })),
    localRules: document.localRules,
  };
}

/** Limits a check has where the protocol says nothing. */
export const usualLimits = (id: string): Readonly<Record<string, number>> =>
  usualCheck(id)?.limits ?? checkFacts.get(id)?.defaultLimits ?? {};

/** A check as the usual method of its tests has it; ids of isometric tests and of jumps are never the same. */
const usualCheck = (id: string) => defaultMethod.checks[id] ?? defaultJumpMethod.checks[id];

/** A typed number: `undefined` when empty, the text itself when it is none, so that the judging names it. */
function read(path: string, text: string): unknown {
  const typed = text.trim().replace(',', '.');
  if (typed === '') return undefined;
  const value = Number(typed);
  return Number.isFinite(value) ? Number((value / scaleOf(path)).toFixed(9)) : text;
}

/** The form as a document, judged elsewhere: it may hold texts where numbers belong. */
export function documentOf(form: ProtocolForm, version: number): Record<string, unknown> {
  const number = (path: string) => read(path, form.numbers[path] ?? '');
  const group = (name: string, paths: readonly string[]) =>
    withoutGaps(Object.fromEntries(paths.map((path) => [path, number(`${name}.${path}`)])));
  const at = 'warmUp.efforts.0';
  return {
    schema: 'sthene.protocol/1',
    name: form.name.trim(),
    version,
    summary: form.summary.trim(),
    note: form.note.trim(),
    test: form.test,
    warmUp: {
      steps: form.steps.map((step) => step.trim()),
      confirm: form.confirm,
      efforts: form.efforts.map((one) =>
        withoutGaps({
          share: read(`${at}.share`, one.share),
          band: read(`${at}.band`, one.band),
          weightShare: read(`${at}.weightShare`, one.weightShare),
        }),
      ),
      ...group('warmUp', ['rest']),
    },
    maximal: group('maximal', ['minimum', 'planned', 'maximum']),
    rest: group('rest', ['minimum', 'maximum']),
    cue: { words: form.cueWords.trim(), voice: form.voice, ...group('cue', ['count', 'delay']) },
    pull: group('pull', ['seconds', 'warnUnder', 'failUnder']),
    extraTrial: group('extraTrial', ['difference', 'share', 'minorShare']),
    stop: { ...group('stop', ['rejectedInARow', 'fall']), act: form.act },
    checks: checksOf(form),
    setupFields: form.setupFields.map(setupFieldOf),
    localRules: form.localRules.map((rule) => rule.trim()),
  };
}

const withoutGaps = (entries: Record<string, unknown>) =>
  Object.fromEntries(Object.entries(entries).filter(([, value]) => value !== undefined));

/** What differs from the method alone. */
function checksOf({ checks }: ProtocolForm): Record<string, unknown> {
  const own: Record<string, unknown> = {};
  for (const [id, { use, limits }] of Object.entries(checks)) {
    const usual = usualLimits(id);
    const changed = Object.entries(limits).flatMap(([limit, text]) => {
      const value = Number(text.trim().replace(',', '.'));
      if (text.trim() === '' || value === usual[limit]) return [];
      return [[limit, Number.isFinite(value) ? value : text] as const];
    });
    const usualUse = usualCheck(id) !== undefined;
    if (!use) {
      if (usualUse) own[id] = { use: false };
    } else if (changed.length > 0) own[id] = { use: true, limits: Object.fromEntries(changed) };
    else if (!usualUse) own[id] = { use: true };
  }
  return own;
}

function setupFieldOf({ id, title, kind, unit, choices, required }: SetupForm): Record<string, unknown> {
  const list = choices
    .split(',')
    .map((one) => one.trim())
    .filter((one) => one !== '');
  return {
    id: id || idFrom(title),
    title: title.trim(),
    ...(kind === 'number' && unit.trim() !== '' ? { unit: unit.trim() } : {}),
    kind,
    ...(kind === 'choice' ? { choices: list } : {}),
    required,
  };
}

/** An id for a field that has only a title yet. */
export function idFrom(title: string): string {
  const plain = title
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '_');
  const trimmed = plain.replace(/^[_\d]+|_+$/g, '').slice(0, 40);
  return trimmed === '' ? 'field' : trimmed;
}

/** True for something that was kept as a form of this version. */
export function isForm(value: unknown): value is ProtocolForm {
  if (typeof value !== 'object' || value === null) return false;
  const form = value as Partial<Record<keyof ProtocolForm, unknown>>;
  const lists = [form.steps, form.efforts, form.setupFields, form.localRules];
  const objects = [form.numbers, form.checks, form.test];
  return (
    typeof form.name === 'string' &&
    lists.every(Array.isArray) &&
    objects.every((one) => typeof one === 'object' && one !== null)
  );
}
