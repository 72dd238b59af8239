import type { SetupField } from './protocol.ts';

const number = (id: string, title: string, unit: string, required = false): SetupField => ({
  id,
  title,
  unit,
  kind: 'number',
  required,
});
const choice = (id: string, title: string, choices: readonly string[], required = false): SetupField => ({
  id,
  title,
  kind: 'choice',
  choices,
  required,
});
const text = (id: string, title: string): SetupField => ({ id, title, kind: 'text', required: false });

/** Angles of 180 degrees mean straight. */
const posture = [
  number('knee_angle', 'Knee angle (180 is straight)', 'deg', true),
  number('hip_angle', 'Hip angle (180 is straight)', 'deg', true),
];

const rig = [
  number('bar_height', 'Bar height above the plates', 'cm', true),
  text('bar_pin', 'Bar pin or hole in the rack'),
];

const words = [
  text('cue_words', 'Words of the cue, as spoken'),
  { id: 'familiarisation', title: 'First session with this test', kind: 'yes-no', required: false } as const,
  text('notes', 'Notes'),
];

/** Mid-thigh pull: bar, posture, grip and what ties the hands to the bar. */
export const pullFields: readonly SetupField[] = [
  ...rig,
  ...posture,
  choice('grip', 'Grip', ['clean', 'mixed', 'hook'], true),
  number('grip_width', 'Distance between the hands', 'cm'),
  choice('straps', 'Straps', ['none', 'straps', 'straps and tape'], true),
  number('stance_width', 'Distance between the heels', 'cm'),
  { id: 'belt', title: 'Lifting belt', kind: 'yes-no', required: false },
  text('footwear', 'Footwear'),
  ...words,
];

/** Squat against a fixed bar. */
export const squatFields: readonly SetupField[] = [
  ...rig,
  ...posture,
  choice('bar_position', 'Bar on the back', ['high', 'low'], true),
  number('stance_width', 'Distance between the heels', 'cm'),
  { id: 'belt', title: 'Lifting belt', kind: 'yes-no', required: false },
  text('footwear', 'Footwear'),
  ...words,
];

/** What a test on one leg adds. */
export const singleLegFields: readonly SetupField[] = [
  choice('balance_help', 'Help with balance', ['none', 'finger tips', 'one hand'], true),
  text('free_leg', 'Where the free leg is held'),
];

const channel = [
  text('position', 'Position of the body and of the joint'),
  number('joint_angle', 'Joint angle', 'deg'),
  number('lever_arm', 'Lever arm', 'cm'),
];

/** Any single force or torque channel. */
export const channelFields: readonly SetupField[] = [
  ...channel,
  choice('limb', 'Side', ['left', 'right', 'both']),
  ...words,
];

/** One limb on a load cell; its side is that of the test. */
export const limbFields: readonly SetupField[] = [
  ...channel,
  text('fixation', 'How body and load cell are fixed'),
  ...words,
];

const arms = choice('arms', 'Arms', ['hands on hips', 'arm swing', 'hands on the bar'], true);
const jumpWords = [text('footwear', 'Footwear'), ...words];

/** Jump from standing: what the arms do and how deep it goes changes the height. */
export const jumpFields: readonly SetupField[] = [
  arms,
  number('stance_width', 'Distance between the heels', 'cm'),
  choice('depth', 'Depth of the countermovement', ['self-chosen', 'to a mark']),
  ...jumpWords,
];

/** Jump from a held squat. */
export const squatJumpFields: readonly SetupField[] = [
  arms,
  number('knee_angle', 'Knee angle (180 is straight)', 'deg', true),
  number('stance_width', 'Distance between the heels', 'cm'),
  ...jumpWords,
];

/** Jump after stepping off a box. */
export const dropJumpFields: readonly SetupField[] = [
  number('box_height', 'Height of the box above the plates', 'cm', true),
  arms,
  ...jumpWords,
];

/** Hops on the spot. */
export const hopFields: readonly SetupField[] = [arms, ...jumpWords];

/** What a jump with a weight adds. */
export const loadFields: readonly SetupField[] = [
  number('load', 'Load carried', 'kg', true),
  choice('load_kind', 'How it is carried', ['bar on the back', 'hexagonal bar', 'dumbbells', 'vest'], true),
];
