import { type Registry, registry } from '../../registry.ts';
import type { JumpCheckDefinition } from './check.ts';
import { dropChecks } from './drop.ts';
import { flightChecks } from './flight.ts';
import { legChecks } from './legs.ts';
import { sampleChecks } from './samples.ts';
import { startChecks } from './start.ts';
import { weighingChecks } from './weighing.ts';

export type { JumpCheckDefinition } from './check.ts';
export { unloadShare } from './start.ts';

/** Every released check on a jump, in the order they are listed to people. */
export const jumpCheckRegistry: Registry<JumpCheckDefinition> = registry('jump check', [
  ...weighingChecks,
  ...startChecks,
  ...flightChecks,
  ...dropChecks,
  ...legChecks,
  ...sampleChecks,
]);
