export * from './agreement.ts';
export * from './athlete.ts';
export * from './client.ts';
export * from './curve.ts';
export * from './follow/index.ts';
export * from './imports.ts';
export * from './lab.ts';
export * from './method-routes.ts';
export {
  mostLines,
  mostPreviewed,
  type NearestFound,
  type NearestRequest,
  type Nearness,
  type Preview,
  type PreviewedTrial,
  type PreviewRequest,
} from './method-work.ts';
export * from './methods.ts';
export * from './people.ts';
export * from './pressure.ts';
export * from './problem.ts';
export * from './protocol-document.ts';
export * from './protocols.ts';
export * from './received.ts';
export {
  type ComparedMetric,
  type ComparedPairs,
  type Comparison,
  type FailedTrials,
  type FlippedTrial,
  type Flips,
  type HandedOutOfRun,
  mostBehind,
  mostPairs,
  type Recomputation,
} from './recompute.ts';
export * from './reliability.ts';
export * from './reports.ts';
export * from './routes.ts';
export * from './sessions.ts';
export * from './squad.ts';
export * from './trials.ts';
export { type TrialUncertainty, trialUncertainty, type UncertaintyOfValue } from './uncertainty.ts';
export * from './video.ts';
export * from './video-chunk.ts';
export * from './video-routes.ts';
