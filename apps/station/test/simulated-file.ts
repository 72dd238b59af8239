import { recordingOf, simulatePull } from '@sthene/core';
import { formatOf } from '@sthene/formats';

/** A good pull as a text file in our own form, with what is true of it. */
export async function simulatedFile(
  seed: number,
  fault?: string,
): Promise<{ bytes: Uint8Array<ArrayBuffer>; truth: ReturnType<typeof simulatePull>['truth'] }> {
  const pull = simulatePull(fault === undefined ? {} : { fault }, seed);
  const text = formatOf('text');
  if (text?.write === undefined) throw new Error('the text format is not listed');
  return { bytes: new Uint8Array(await text.write(recordingOf(pull))), truth: pull.truth };
}
