import type { Field } from '../data-package/descriptor.ts';

/** What the first column of every row says: the kind of file and its version. */
export const exchangeFormat = 'sthene.exchange/1';

const text = (name: string, description: string, required = false): Field => ({
  name,
  type: 'string',
  description,
  ...(required ? { constraints: { required: true } } : {}),
});
const number = (name: string, description: string): Field => ({ name, type: 'number', description });

/** The columns of an exchange file, in their order, which never changes; a later version may add some at the end. */
export const exchangeFields = [
  text('format', `Always \`${exchangeFormat}\`.`, true),
  text('lab_id', 'Which lab wrote the file; a random id that stays.', true),
  text('row_id', 'Which value it is in that lab; stays the same in every file of the lab.', true),
  text('origin', 'For a value the lab received: lab and row it was first written by, as `lab_id/row_id`.'),
  text('person_id', 'Whose value it is; a random id that stays in that lab.', true),
  text('code', 'Their short code.', true),
  text('given_name', 'Given name; empty unless names were asked for.'),
  text('family_name', 'Family name; empty unless names were asked for.'),
  text('birth_date', 'Date of birth, `YYYY-MM-DD`; empty unless names were asked for.'),
  text('session_id', 'Which session.', true),
  text('started_at', 'Start of the session, an RFC 3339 instant in UTC with milliseconds.', true),
  text('time_known', '`true`, or `false` where only the day is known; the instant is then noon UTC.', true),
  text('test', 'Which test, by its permanent id.', true),
  number('test_version', 'Version of the test.'),
  text('protocol', 'Name of the protocol the session was run by, where one is known.'),
  number('protocol_version', 'Its version.'),
  text('protocol_sha256', 'Hash of its document.'),
  text('trial_id', 'Which trial; empty for a value that is not of a trial of the lab itself.'),
  number('trial', 'Its number in the session.'),
  text('effort', '`maximal`, `submaximal` or `familiarisation`.'),
  text('of', 'What the value is of: `trial`, `mean`, `best` or `unknown`.', true),
  text('metric', 'Which metric, by its permanent id.', true),
  number(
    'value',
    'The value in the unit of this row: the shortest decimal that reads back to the same double. Empty with a reason.',
  ),
  text('unit', 'UCUM code of the value.', true),
  text('reason', 'Why there is no value, by its permanent id.'),
  text('verdict', 'What the checks said of the trial: `counts`, `look-again` or `repeat`.'),
  text('standing', 'How the trial stands with every decision of a person: also `excluded`.'),
  text('overruled', '`true` where a person let the trial count against the checks.'),
  text('result_id', 'Which result of the trial; the newest one.'),
  text('computed_at', 'When it was computed.'),
  text('method_name', 'Name of the method that made it.'),
  number('method_version', 'Its version.'),
  text('method_sha256', 'Hash of its document: equal hashes, equal method.'),
  text('method_label', 'For a value the lab received: the method, in the words of whoever brought it.'),
  text('recording_sha256', 'Hash of the recording, byte for byte as received.'),
  text('given_value', 'For a value the lab received: the cell as it stood.'),
  text('given_unit', 'For a value the lab received: its unit there.'),
  text('file_sha256', 'For a value the lab received: hash of the table it came in.'),
  text('application', 'Program and version that computed the result, or wrote the row.', true),
] as const satisfies readonly Field[];
