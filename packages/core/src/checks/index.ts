import { type Registry, registry } from '../registry.ts';
import type { CheckDefinition } from './check.ts';
import { clipping } from './clipping/clipping.ts';
import { countermovement } from './countermovement/countermovement.ts';
import { doublePull } from './double-pull/double-pull.ts';
import { earlyPull } from './early-pull/early-pull.ts';
import { gapCheck } from './gap/gap.ts';
import { liftOff } from './lift-off/lift-off.ts';
import { noiseForRfd } from './noise-for-rfd/noise-for-rfd.ts';
import { onsetAgreement } from './onset-agreement/onset-agreement.ts';
import { otherFoot } from './other-foot/other-foot.ts';
import { peakAtEnd } from './peak-at-end/peak-at-end.ts';
import { pretension } from './pretension/pretension.ts';
import { quietBaseline } from './quiet-baseline/quiet-baseline.ts';
import { restBefore } from './rest-before/rest-before.ts';
import { sampleRate } from './sample-rate/sample-rate.ts';
import { spike } from './spike/spike.ts';
import { steadyBefore } from './steady-before/steady-before.ts';
import { steppedRise } from './stepped-rise/stepped-rise.ts';
import { steppedStart } from './stepped-start/stepped-start.ts';
import { sustainedEffort } from './sustained-effort/sustained-effort.ts';
import { zeroAfter } from './zero-after/zero-after.ts';

export * from './check.ts';

/** Every released check on an isometric trial, in the order they are listed to people. */
export const checkRegistry: Registry<CheckDefinition> = registry('check', [
  quietBaseline,
  steadyBefore,
  pretension,
  restBefore,
  steppedStart,
  countermovement,
  onsetAgreement,
  steppedRise,
  doublePull,
  sustainedEffort,
  peakAtEnd,
  spike,
  earlyPull,
  clipping,
  gapCheck,
  liftOff,
  otherFoot,
  zeroAfter,
  noiseForRfd,
  sampleRate,
]);
