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
