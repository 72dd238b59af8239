/**
 * What an athlete is told when a check on a jump speaks, worst first; as for pulls at most six words, with the attention outside the
 * body (Wulf 2013, Int Rev Sport Exerc Psychol 6(1):77-104, from memory).
 */
export const jumpCorrections: Readonly<Record<string, string>> = {
  jump_saturation: 'Not your fault: plates too small',
  jump_gap: 'Signal was lost. Once more, please',
  flight_length: 'Jump up, land on the plates',
  jump_other_foot: 'Keep the other plate free',
  jump_early: 'Wait for the cue',
  jump_false_start: 'One start, then straight up',
  squat_jump_dip: 'No dip: straight up',
  squat_jump_dip_depth: 'Hold the height, then straight up',
  no_countermovement: 'Down and up in one go',
  squat_jump_hold: 'Hold still until the cue',
  weighing_window: 'Stand still before you jump',
  weighing_steady: 'Stand still before you jump',
  weighing_slope: 'Stand still before you jump',
  weighing_halves: 'Stand still before you jump',
  drop_from_box: 'Step off, do not jump off',
  hops_enough: 'Short on the ground, every hop',
  contact_length: 'Quicker off the ground',
  rest_after_landing: 'Land and stand still',
  height_agreement: 'Land as tall as you left',
  weight_agreement: 'Please wait: plates need a check',
  zero_in_flight: 'Please wait: plates need a check',
  jump_sample_rate: 'Not your fault: plates too slow',
};
