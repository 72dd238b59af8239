/**
 * Jumps: from the sum of the plates to the same trial result that an isometric effort gives.
 *
 * What others build on, and what stays as it is:
 * - `analyse(request)` stays the one door. Where `request.protocol.jump` is set it hands over to `analyseJumps`; `request.method` is
 *   then not used, `request.jumpMethod` (else `defaultJumpMethod`) is. `efforts: 'all'` gives every jump, `'largest'` the highest.
 * - The result is a `TrialResult`: `jump` (`JumpEvents`) in place of `events`; `onset` filled (`jump-five-sd-back-30` and the other
 *   `jumpOnsetRules`; `jump-contact` in drop jumps and hops; `by-hand`); `bodyWeight` from the jump's own quiet second (`baseline`),
 *   else as weighed or given; `metrics` and `checks` of `jumpMetricRegistry` and `jumpCheckRegistry` for its kind; `spread` and `onsets`
 *   over the other published rules, `five-sd-of-flight` and `fixed-10/20/30` being those of take-off; `method` refers to the jump method.
 * - `JumpEvents`: official instants are whole samples of the recording, `takeOffExact` and `touchdownExact` lie between them and are
 *   shown only. An instant that a jump does not have (no countermovement in a squat jump, no end of landing in a short file) is absent.
 *   `phases` are in order, each with the id of its definition. `contacts`: the contact of a drop jump, every hop of a series.
 * - `splitJumps` finds the jumps of a span; each result names a span in which it is found again to the last digit.
 * - Facts of any metric or check, of isometric tests and of jumps: `metricFacts`, `checkFacts`, `metricFactsOf(test)`,
 *   `checkFactsOf(test)`, `headlineMetric(test)`, all in `facts`.
 * - Velocity, position and power are not stored: `motionOfTrial(forces, result)` gives them again for a curve.
 */
export * from './analyse-jumps.ts';
export * from './checks/index.ts';
export { nominalTouchdownSpeed, touchdownVelocity, touchdownVelocityFromBox } from './drop.ts';
export * from './events.ts';
export { crossing, type Flight, flightEvents, flightRules, flightThreshold } from './flight.ts';
export { type FoundJumps, foundJumps, type JudgedJump } from './found-jumps.ts';
export { sayersPeakPower, workEnergyHeight } from './height.ts';
export type { JumpContext } from './jump-context.ts';
export * from './method/built-in.ts';
export * from './method/derive.ts';
export * from './method/jump-method.ts';
export { jumpMethodSentences } from './method/sentences.ts';
export * from './metrics/index.ts';
export { integrate, type Motion, positionAt, restingVelocity, velocityAt, velocityNoise } from './motion.ts';
export { motionOfTrial } from './motion-of-trial.ts';
export { type JumpOnsetInput, type JumpOnsetRule, jumpOnsetRules } from './onset.ts';
export { phaseOf } from './phases.ts';
export { type FoundJump, splitJumps } from './split.ts';
export { hopStiffness } from './stiffness.ts';
export { weighAfter, weighBefore } from './weighing.ts';
