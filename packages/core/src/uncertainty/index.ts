export * from './between-rigs.ts';
export * from './combine.ts';
export { checkedRigOf } from './from-check.ts';
export * from './jumps/index.ts';
export { type Drawn, drawMetrics } from './monte-carlo.ts';
export { type NoiseRule, type NoiseWeight, noiseRules } from './noise/index.ts';
export * from './of-mean.ts';
export {
  flightTimingWords,
  jumpOnsetTimingWords,
  onsetTimingWords,
  type PartId,
  partIds,
  partWords,
  type Uncertainty,
  type UncertaintyPart,
  type UnknownPart,
} from './parts.ts';
export { sampleNoise } from './sample-noise.ts';
export * from './sources.ts';
export { secondMeans, weightFromMeans, weightFromStanding } from './stand-still.ts';
export { type KnownOfTrial, sourcesOf } from './trial-sources.ts';
export * from './uncertainty.ts';
