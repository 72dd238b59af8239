/** The usual cautions of a maximal effort, in plain words, printed and shown before a day begins. */
export const cautions: readonly string[] = [
  'Local rules and the judgement of licensed professionals come first; this list replaces neither.',
  'Screen the health of everyone before a first test. After injury or illness, test only with medical clearance.',
  'No maximal effort without a warm-up that ends with submaximal efforts of this test.',
  'Stop at once on pain, dizziness, numbness, a change in vision, chest symptoms, or when the athlete wishes it. No further maximal effort that day after pain.',
  'Let the athlete breathe; keep efforts short and rest between them. Holding the breath raises blood pressure sharply.',
  'Minors take part with the consent of a parent or guardian and their own.',
  'A result is not a diagnosis and does not by itself decide on a return to sport.',
];

/** What a fixed bar adds. */
export const barCautions: readonly string[] = [
  'Check rack, bar, pins and plates before the first athlete. Nobody stands in line with the bar.',
  'A spotter stands by. Take the slack out before the cue, keep the back in its neutral position, never jerk.',
];

/** What straps add. */
export const strapCautions: readonly string[] = [
  'Straps must open at once and by the athlete alone: no knots, nothing tied to the rack.',
];

/** What jumping adds. */
export const jumpCautions: readonly string[] = [
  'The plates lie level and fixed, flush with the floor around them or with room to step down; nothing lies in the way of a landing.',
  'Learn to land softly on both feet at low effort first; the first jumps of a session are submaximal.',
  'Stop when landings become stiff, loud or unsteady: tired landings load knees, ankles and back most.',
];

/** What a box adds. */
export const boxCautions: readonly string[] = [
  'The box stands firm and cannot tip or slide. Begin low; a higher box only when the landing from the lower one is safe.',
  'Step off the box, never jump off it; somebody stands by.',
];

/** What a weight adds. */
export const loadCautions: readonly string[] = [
  'A loaded jump only for people who can squat and land with that load; begin without it and add little at a time.',
  'Spotters or a safe place to drop the weight; the bar stays pressed to the back until after the landing.',
];

/** What one leg adds. */
export const oneLegCautions: readonly string[] = [
  'On one leg begin with small jumps; after an injury of the leg only when whoever treats it agrees.',
];
