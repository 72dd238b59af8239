import { boxCautions, cautions, jumpCautions, loadCautions, oneLegCautions } from './cautions.ts';
import type { Protocol } from './protocol.ts';
import { dropJumpFields, hopFields, jumpFields, loadFields, singleLegFields, squatJumpFields } from './setup-fields.ts';

const sources = [
  'Owen et al. 2014, J Strength Cond Res 28(6):1552-1558 (quiet second, onset, sampling)',
  'McMahon et al. 2018, Strength Cond J 40(4):96-106, doi 10.1519/SSC.0000000000000375 (phases)',
];

/** Jump from standing with a countermovement. */
export const countermovementJump: Protocol = {
  id: 'countermovement-jump',
  version: 1,
  title: 'Countermovement jump',
  summary: 'A maximal vertical jump from quiet standing, down and up in one movement, landing on the plates.',
  load: 'weight',
  limbs: 'both',
  pool: 'countermovement-jump',
  cue: 'Stand still. Jump as high as you can.',
  // Times of a pull: they say nothing of a jump and only keep the shape of a test.
  pullSeconds: { planned: 3, warnUnder: 1, failUnder: 0.5 },
  // Rest and numbers are common practice.
  restSeconds: 60,
  maximalTrials: { minimum: 2, planned: 3, maximum: 6 },
  jump: { kind: 'countermovement', loaded: false },
  setupFields: jumpFields,
  cautions: [...cautions, ...jumpCautions],
  sources,
};

/** Jump from a held squat, without a dip. */
export const squatJump: Protocol = {
  ...countermovementJump,
  id: 'squat-jump',
  title: 'Squat jump',
  summary: 'A maximal vertical jump from a squat held for two to three seconds, upward only, landing on the plates.',
  pool: 'squat-jump',
  cue: 'Hold still. Jump as high as you can, without dipping.',
  jump: { kind: 'squat', loaded: false },
  setupFields: squatJumpFields,
  sources: [
    ...sources,
    'Sheppard and Doyle 2008, J Strength Cond Res 22(2):648-651 (dips are found on force, not by eye)',
  ],
};

/** Jump after stepping off a box onto the plates. */
export const dropJump: Protocol = {
  ...countermovementJump,
  id: 'drop-jump',
  title: 'Drop jump',
  summary:
    'Step off a box onto the plates, spend as little time on the ground as possible, jump as high as possible, land and stand still.',
  pool: 'drop-jump',
  cue: 'Step off. Short on the ground, then as high as you can. Land and stand still.',
  jump: { kind: 'drop', loaded: false },
  setupFields: dropJumpFields,
  cautions: [...cautions, ...jumpCautions, ...boxCautions],
  sources: [
    ...sources,
    'McMahon et al. 2021, Biomechanics 1(2):178-189, doi 10.3390/biomechanics1020015 (the box is not the drop; standing still after the landing)',
  ],
};

/** A series of hops on the spot. */
export const repeatedHops: Protocol = {
  ...countermovementJump,
  id: 'repeated-hops',
  title: 'Repeated hops',
  summary: 'About eleven maximal hops on the spot with short contacts; the five best of ten give the value.',
  pool: 'repeated-hops',
  cue: 'Hop as high as you can with as little time on the ground as you can. Ten times.',
  restSeconds: 120,
  maximalTrials: { minimum: 1, planned: 2, maximum: 3 },
  jump: { kind: 'repeated', loaded: false },
  setupFields: hopFields,
  sources: [
    ...sources,
    'Harper et al. 2011, conference paper (ten hops, five best; from memory)',
    'Dalleau et al. 2004, Int J Sports Med 25:170-176 (stiffness from times; from memory)',
  ],
};

const loaded = (test: Protocol): Protocol => ({
  ...test,
  id: `${test.id}-loaded`,
  title: `${test.title}, loaded`,
  summary: `${test.summary} With a weight; results of different loads are never averaged.`,
  pool: `${test.pool}-loaded`,
  restSeconds: 120,
  jump: { kind: (test.jump as NonNullable<Protocol['jump']>).kind, loaded: true },
  setupFields: [...loadFields, ...test.setupFields],
  cautions: [...test.cautions, ...loadCautions],
  sources: [
    ...test.sources,
    'Samozino et al. 2008, J Biomech 41:2940-2945 (force and velocity from loaded jumps; from memory)',
  ],
});

/** Jumps with a weight. */
export const countermovementJumpLoaded: Protocol = loaded(countermovementJump);
export const squatJumpLoaded: Protocol = loaded(squatJump);

const oneLeg = (side: 'left' | 'right'): Protocol => ({
  ...countermovementJump,
  id: `countermovement-jump-${side}`,
  title: `Countermovement jump, ${side} leg`,
  summary: `A maximal vertical jump from quiet standing on the ${side} leg, landing on it or on both.`,
  limbs: side,
  pool: `countermovement-jump-${side}`,
  setupFields: [...jumpFields, ...singleLegFields],
  cautions: [...cautions, ...jumpCautions, ...oneLegCautions],
});

/** Jumps on one leg. */
export const countermovementJumpLeft: Protocol = oneLeg('left');
export const countermovementJumpRight: Protocol = oneLeg('right');
