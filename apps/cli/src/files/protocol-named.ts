import { isometricEffortIn, type Protocol, protocolRegistry } from '@sthene/core';
import { exitCodes } from '../terminal/exit-codes.ts';
import { Failure } from '../terminal/failure.ts';

/** The test by its id; one whose baseline length is a parameter takes it from the options. */
export function protocolNamed(id: string, baseline?: number): Protocol {
  const protocol = protocolRegistry.get(id);
  if (protocol === undefined) {
    throw new Failure(
      'test-unknown',
      `There is no test "${id}".`,
      `Known tests: ${protocolRegistry.all.map((one) => one.id).join(', ')}.`,
      exitCodes.usage,
    );
  }
  return protocol.parameters && baseline !== undefined
    ? isometricEffortIn(protocol.parameters.unit, baseline)
    : protocol;
}
