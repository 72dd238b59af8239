/** Permanent codes of what a journal tells the operator. */
export type JournalStatusCode =
  | 'sync-failed'
  | 'write-failed'
  | 'written-again'
  | 'disk-nearly-full'
  | 'disk-room-again'
  | 'reserve-released'
  | 'reserve-missing'
  | 'samples-refused'
  | 'sync-slow'
  | 'station-stood-still'
  | 'wall-clock-jumped'
  | 'late-packet';

/** One thing to tell: a code and figures first, then words: what happened, what is safe, what to do. */
export interface JournalStatus {
  readonly code: JournalStatusCode;
  readonly severity: 'note' | 'warning' | 'alarm';
  readonly words: string;
  readonly details: Readonly<Record<string, string | number>>;
}

const severities: Readonly<Record<JournalStatusCode, JournalStatus['severity']>> = {
  'sync-failed': 'alarm',
  'write-failed': 'alarm',
  'written-again': 'note',
  'disk-nearly-full': 'warning',
  'disk-room-again': 'note',
  'reserve-released': 'alarm',
  'reserve-missing': 'warning',
  'samples-refused': 'alarm',
  'sync-slow': 'warning',
  'station-stood-still': 'warning',
  'wall-clock-jumped': 'note',
  'late-packet': 'note',
};

const words: Readonly<Record<JournalStatusCode, (d: Readonly<Record<string, string | number>>) => string>> = {
  'sync-failed': (d) =>
    `The drive could not confirm the last samples (${d.cause}). They are still in memory and are being written again in a new file. Finish this trial, then check the drive.`,
  'write-failed': (d) =>
    `The last samples could not be written (${d.cause}). They are still in memory and writing is tried again. Finish this trial, then check the drive.`,
  'written-again': (d) => `All samples in memory are safe again, in file ${d.segment}.`,
  'disk-nearly-full': (d) =>
    `The disk will be full in about ${d.minutes} min at this rate. Make room before the next trial.`,
  'disk-room-again': () => 'There is room on the disk again.',
  'reserve-released': () =>
    'The disk is full. The space kept in reserve is now used so that this trial ends properly. Start no other before there is room.',
  'reserve-missing': (d) =>
    `No space could be kept in reserve (${d.cause}). Recording works; if the disk fills up, the running trial may be cut off.`,
  'samples-refused': (d) =>
    `The disk has taken nothing for so long that the memory for waiting samples is full. Samples from number ${d.first} on are not kept and will show as a gap. Everything confirmed before is safe.`,
  'sync-slow': (d) => `The drive has not confirmed anything for ${d.seconds} s. Samples wait in memory.`,
  'station-stood-still': (d) =>
    `The station stood still for ${Number(d.seconds).toFixed(1)} s. A sample that is missing shows as a gap.`,
  'wall-clock-jumped': (d) => `The computer's clock was moved by ${d.seconds} s. Sample times are not touched.`,
  'late-packet': () => 'Something arrived after the recording was closed and was not kept.',
};

/** Puts a status together. */
export function journalStatus(code: JournalStatusCode, details: JournalStatus['details'] = {}): JournalStatus {
  return { code, severity: severities[code], words: words[code](details), details };
}

/** Every code, for documentation. */
export const journalStatusCodes = Object.keys(severities) as readonly JournalStatusCode[];
