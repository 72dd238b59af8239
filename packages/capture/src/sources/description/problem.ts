/** Everything that may be wrong with a source description; codes are permanent. */
export type SourceProblemCode =
  | 'source-not-an-object'
  | 'source-schema-unknown'
  | 'source-field-missing'
  | 'source-field-unknown'
  | 'source-type-wrong'
  | 'source-value-out-of-range'
  | 'source-choice-unknown'
  | 'source-hex-invalid'
  | 'source-layout-missing'
  | 'source-layout-unused'
  | 'source-channel-repeated'
  | 'source-channel-unknown'
  | 'source-channel-unread'
  | 'source-counter-repeated'
  | 'source-frame-too-long'
  | 'source-sign-ambiguous'
  | 'source-stream-unnamed'
  | 'source-stream-labels'
  | 'source-calibration-unused'
  | 'source-signal-unknown'
  | 'source-signal-repeated'
  | 'source-signal-counted'
  | 'source-matrix-size'
  | 'source-matrix-zero'
  | 'source-surface-incomplete';

/** One thing wrong with a description: where, what was expected, what came, in data and in words. */
export interface SourceProblem {
  readonly code: SourceProblemCode;
  /** JSON pointer into the description; '' is the whole of it. */
  readonly at: string;
  readonly expected?: string;
  readonly found?: string;
  /** What is wrong, in words. */
  readonly message: string;
}

/** The meaning of each code, for the reference page; a test keeps both equal. */
export const sourceProblems: Readonly<Record<SourceProblemCode, string>> = {
  'source-not-an-object': 'the description, or a part of it that has fields, is no JSON object',
  'source-schema-unknown': '`schema` is not `sthene.source/1`',
  'source-field-missing': 'a field that must be there is not',
  'source-field-unknown': 'a field is not known; often a slip of the pen',
  'source-type-wrong': 'a value has another type than it should',
  'source-value-out-of-range': 'a number, or the length of a text or list, lies outside its limits',
  'source-choice-unknown': 'a value is none of those that may stand there',
  'source-hex-invalid': 'bytes are not written as pairs of hexadecimal digits',
  'source-layout-missing': 'bytes arrive over this transport, and no layout says how to read them',
  'source-layout-unused': 'streams, files and virtual plates have no bytes for a layout to read',
  'source-channel-repeated': 'two channels have one name, or two fields fill one channel',
  'source-channel-unknown': 'a field names a channel that is not described',
  'source-channel-unread': 'no field fills a described channel',
  'source-counter-repeated': 'more than one counter, or more than one time, is described',
  'source-frame-too-long': 'a frame would be longer than 16384 bytes',
  'source-sign-ambiguous': 'one sign would both separate fields and belong to a number',
  'source-stream-unnamed':
    'a stream is named by nothing: neither name, type nor source id, nor the machine it comes from',
  'source-stream-labels': 'a stream has not one label for each channel that is described',
  'source-calibration-unused': 'virtual plates send forces, and a calibration makes forces of signals',
  'source-signal-unknown': 'a calibration takes a signal that is not described among the channels',
  'source-signal-repeated': 'a calibration takes one signal twice',
  'source-signal-counted': 'a signal has another axis than `other` and would be a force beside what is made of it',
  'source-matrix-size': 'a matrix has not one row for each channel it makes and one number for each signal',
  'source-matrix-zero': 'a row of a matrix is all zeros, so that its channel would always be zero',
  'source-surface-incomplete':
    'a surface stands elsewhere than with the vertical channel of a plate that gives each of three forces and three moments once',
};

const correct = 'Correct this field.';

/** What to do about each, where it is more than correcting the field that is named. */
const nextSteps: Partial<Readonly<Record<SourceProblemCode, string>>> = {
  'source-stream-labels': 'Look for the stream again and choose it anew, or leave the labels out.',
  'source-calibration-unused': 'Leave the calibration out.',
  'source-signal-unknown': 'Name a channel that comes in, or describe it among the channels.',
  'source-signal-repeated': 'Take it once, and add up its two columns if both are meant.',
  'source-signal-counted': 'Give this channel the axis other; the channel made of it has the axis.',
  'source-matrix-size':
    'Give the matrix one row for each channel it makes, and in each row one number for each signal, in the order of the signals.',
  'source-matrix-zero': 'Correct the row, or take row and channel away.',
  'source-surface-incomplete':
    'Describe x, y, z, mx, my and mz of this plate and give the surface with z, or leave it out.',
};

/** What to do next about a problem. */
export const sourceNextStep = (code: SourceProblemCode): string => nextSteps[code] ?? correct;
