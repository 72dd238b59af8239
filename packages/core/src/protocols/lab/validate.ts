import { checkFactsOf } from '../../facts/facts.ts';
import { unitOf } from '../../units/index.ts';
import { protocolRegistry } from '../registry.ts';
import type { ProtocolDocument } from './document.ts';
import type { ProtocolFault } from './fault.ts';
import { protocolSizes as sizes } from './fields.ts';
import { type Fields, isObject, join, Reader } from './reader.ts';
import { readRelations } from './relations.ts';

/** A protocol, or everything that is wrong with it. */
export type ProtocolOutcome =
  | { readonly ok: true; readonly document: ProtocolDocument }
  | { readonly ok: false; readonly faults: readonly ProtocolFault[] };

/**
 * The door for protocols from outside: checks a parsed JSON document and returns it as a ProtocolDocument, or every fault it has.
 *
 * Unknown fields are refused, because a misspelt one would silently do nothing. Numbers keep the limits of `protocolFields`;
 * test, checks and limits must exist in this program.
 */
export function validateProtocol(document: unknown): ProtocolOutcome {
  const reader = new Reader();
  const top = reader.object(document, '', names, ['succeeds']);
  if (top !== undefined) {
    readHead(reader, top);
    readWarmUp(reader, top.warmUp);
    readNumbers(reader, top);
    readCue(reader, top.cue);
    readStop(reader, top.stop);
    readChecks(reader, top.checks, testOf(top));
    readSetupFields(reader, top);
    reader.texts(top, 'localRules', '', sizes.localRules, sizes.localRule);
    // What belongs together is only asked once every part is what it should be.
    if (reader.faults.length === 0) readRelations(reader, document as ProtocolDocument);
  }
  if (reader.faults.length > 0) return { ok: false, faults: reader.faults };
  return { ok: true, document: document as ProtocolDocument };
}

const names = [
  ...['schema', 'name', 'version', 'summary', 'note', 'test', 'warmUp', 'maximal', 'rest', 'cue', 'pull'],
  ...['extraTrial', 'stop', 'checks', 'setupFields', 'localRules'],
];

function readHead(reader: Reader, top: Fields): void {
  if (top.schema !== undefined && top.schema !== 'sthene.protocol/1')
    reader.add(
      'protocol-schema-unknown',
      'schema',
      'sthene.protocol/1',
      top.schema,
      'This is another kind of document.',
    );
  reader.text(top.name, 'name', sizes.name);
  reader.text(top.summary, 'summary', sizes.summary, true);
  reader.text(top.note, 'note', sizes.note, true);
  readVersion(reader, top.version, 'version');
  if (top.succeeds !== undefined) {
    const before = reader.object(top.succeeds, 'succeeds', ['version', 'sha256']);
    readVersion(reader, before?.version, 'succeeds.version');
    const hash = before?.sha256;
    if (hash !== undefined && !(typeof hash === 'string' && /^[\da-f]{64}$/u.test(hash)))
      reader.add('protocol-type-wrong', 'succeeds.sha256', '64 hexadecimal digits', hash, 'This is no SHA-256.');
  }
  const test = top.test === undefined ? undefined : reader.object(top.test, 'test', ['id', 'version']);
  if (test?.id === undefined) return;
  const known = protocolRegistry.get(String(test.id));
  if (known === undefined) {
    const ids = protocolRegistry.all.map(({ id }) => id).join(', ');
    reader.add('protocol-test-unknown', 'test.id', ids, test.id, 'This program has no such test.');
  } else if (test.version !== known.version)
    reader.add(
      'protocol-test-unknown',
      'test.version',
      String(known.version),
      test.version,
      `This program has version ${known.version} of the test.`,
    );
}

function readVersion(reader: Reader, value: unknown, at: string): void {
  if (value === undefined) return;
  if (!(typeof value === 'number' && Number.isSafeInteger(value) && value >= 1))
    reader.add('protocol-type-wrong', at, 'a whole number from 1', value, 'Versions count from 1.');
}

function readWarmUp(reader: Reader, value: unknown): void {
  if (value === undefined) return;
  const warmUp = reader.object(value, 'warmUp', ['steps', 'confirm', 'efforts', 'rest']);
  if (warmUp === undefined) return;
  reader.texts(warmUp, 'steps', 'warmUp', sizes.steps, sizes.step);
  reader.flag(warmUp.confirm, 'warmUp.confirm');
  reader.number(warmUp.rest, 'warmUp.rest');
  for (const [i, entry] of reader.list(warmUp, 'efforts', 'warmUp', sizes.efforts).entries()) {
    const at = `warmUp.efforts.${i}`;
    const effort = reader.object(entry, at, ['share', 'band', 'weightShare']);
    if (effort !== undefined) for (const name of Object.keys(effort)) readKnown(reader, effort, name, at);
  }
}

/** A number that has a place in the catalogue; unknown names were refused already. */
function readKnown(reader: Reader, fields: Fields, name: string, at: string): void {
  if (['share', 'band', 'weightShare'].includes(name)) reader.number(fields[name], join(at, name));
}

const groups: Readonly<Record<string, { readonly names: readonly string[]; readonly free?: readonly string[] }>> = {
  maximal: { names: ['minimum', 'planned', 'maximum'] },
  rest: { names: ['minimum', 'maximum'] },
  pull: { names: ['seconds', 'warnUnder', 'failUnder'] },
  extraTrial: { names: ['difference', 'minorShare'], free: ['share'] },
};

function readNumbers(reader: Reader, top: Fields): void {
  for (const [group, { names: needed, free = [] }] of Object.entries(groups)) {
    if (top[group] === undefined) continue;
    const fields = reader.object(top[group], group, needed, free);
    for (const name of [...needed, ...free]) reader.number(fields?.[name], join(group, name));
  }
}

function readCue(reader: Reader, value: unknown): void {
  const cue = value === undefined ? undefined : reader.object(value, 'cue', ['words', 'voice', 'count', 'delay']);
  if (cue === undefined) return;
  reader.text(cue.words, 'cue.words', sizes.words);
  reader.choice(cue.voice, 'cue.voice', ['tone', 'spoken']);
  reader.number(cue.count, 'cue.count');
  reader.number(cue.delay, 'cue.delay');
}

function readStop(reader: Reader, value: unknown): void {
  const stop = value === undefined ? undefined : reader.object(value, 'stop', ['rejectedInARow', 'act'], ['fall']);
  if (stop === undefined) return;
  reader.number(stop.rejectedInARow, 'stop.rejectedInARow');
  reader.number(stop.fall, 'stop.fall');
  reader.choice(stop.act, 'stop.act', ['advise', 'close']);
}

/** Id of the test a document names; its checks are those of that test. */
const testOf = ({ test }: Fields): string => (isObject(test) ? String(test.id) : '');

function readChecks(reader: Reader, value: unknown, test: string): void {
  if (value === undefined) return;
  if (!isObject(value)) {
    reader.add('protocol-not-an-object', 'checks', 'an object', value, 'checks must be an object.');
    return;
  }
  for (const [id, choice] of Object.entries(value)) {
    const at = `checks.${id}`;
    const known = checkFactsOf(test).find((one) => one.id === id);
    if (known === undefined) {
      reader.add('protocol-check-unknown', at, 'a check of this program', id, `There is no check "${id}".`);
      continue;
    }
    const fields = reader.object(choice, at, ['use'], ['limits']);
    reader.flag(fields?.use, `${at}.use`);
    if (fields?.limits === undefined) continue;
    const allowed = Object.keys(known.defaultLimits);
    const limits = isObject(fields.limits) ? fields.limits : reader.object(fields.limits, `${at}.limits`, []);
    for (const [limit, amount] of Object.entries(limits ?? {})) {
      const place = `${at}.limits.${limit}`;
      if (!allowed.includes(limit))
        reader.add(
          'protocol-check-unknown',
          place,
          allowed.join(', ') || 'no limits',
          limit,
          'There is no such limit.',
        );
      else if (typeof amount !== 'number' || !Number.isFinite(amount))
        reader.add('protocol-type-wrong', place, 'a number', amount, 'This must be a number.');
      else if (amount < 0 || amount > 1e6)
        reader.add('protocol-out-of-range', place, '0 to 1000000', amount, 'Between 0 and 1000000.');
    }
  }
}

function readSetupFields(reader: Reader, top: Fields): void {
  const seen = new Set<unknown>();
  for (const [i, entry] of reader.list(top, 'setupFields', '', sizes.setupFields).entries()) {
    const at = `setupFields.${i}`;
    const field = reader.object(entry, at, ['id', 'title', 'kind', 'required'], ['unit', 'choices']);
    if (field === undefined) continue;
    if (typeof field.id !== 'string' || !/^[a-z][a-z0-9_]{0,39}$/u.test(field.id)) {
      const expected = 'small letters, digits and _, a letter first';
      reader.add('protocol-type-wrong', `${at}.id`, expected, field.id, `An id is ${expected}.`);
    } else if (seen.has(field.id))
      reader.add('protocol-twice', `${at}.id`, 'an id of its own', field.id, `"${field.id}" stands twice.`);
    seen.add(field.id);
    reader.text(field.title, `${at}.title`, sizes.fieldTitle);
    reader.text(field.unit, `${at}.unit`, 12);
    if (typeof field.unit === 'string' && unitOf(field.unit) === undefined)
      reader.add(
        'protocol-choice-unknown',
        `${at}.unit`,
        'a unit',
        field.unit,
        `"${field.unit}" is no unit known here.`,
      );
    reader.choice(field.kind, `${at}.kind`, ['number', 'choice', 'text', 'yes-no']);
    reader.flag(field.required, `${at}.required`);
    reader.texts(field, 'choices', at, sizes.choices, sizes.choice);
    const choices = Array.isArray(field.choices) ? field.choices.length : 0;
    if (field.kind === 'choice' && choices < 2)
      reader.add('protocol-choices-missing', `${at}.choices`, 'two or more', choices, 'Give two choices or more.');
  }
}
