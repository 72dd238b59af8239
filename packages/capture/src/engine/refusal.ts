/** Why a command or an answer was not carried out: permanent codes with their words. */
export const refusals = {
  expired:
    'The command came too late and was not carried out. Look at the screen and press again if it is still wanted.',
  'wrong-turn': 'The command was meant for another turn.',
  'wrong-trial': 'The command was meant for another trial.',
  'wrong-phase': 'The command was meant for a phase that is over.',
  'not-now': 'This cannot be done in the present phase.',
  'no-turn': 'No athlete is on the rig.',
  held: 'The turn is on hold. Resume it first.',
  'not-held': 'The turn is not on hold.',
  'not-cleared': 'This athlete has no clearance for this effort.',
  'pain-stopped': 'A pain stop blocks maximal efforts of this athlete until a named person releases it.',
  'no-pain-stop': 'There is no pain stop to release.',
  'question-open': 'A question must be answered first.',
  'rest-not-over': 'The rest is not over. Skip it on purpose or wait.',
  'nothing-planned': 'No effort is left for this athlete.',
  'not-steady': 'The tension is not steady inside the band.',
  'not-on-plates': 'The athlete is not on the plates.',
  'on-plates': 'Somebody is still on the plates.',
  'signal-lost': 'The plates send no samples.',
  'not-armed': 'The turn is not armed: no cue sounds.',
  'not-hands-free': 'Arming is only for hands-free tests.',
  'unknown-question': 'This question is not open.',
  'unknown-answer': 'This is not one of the answers.',
  'unknown-trial': 'There is no such closed trial of this athlete.',
  'not-maximal': 'Only a maximal effort can count.',
  'unknown-person': 'No athlete of this reference has been on the rig.',
  'unknown-cue': 'No cue of this id is waiting for its time.',
  'name-needed': 'This decision needs a name, and a reason where one is asked for.',
} as const;

export type RefusalCode = keyof typeof refusals;
