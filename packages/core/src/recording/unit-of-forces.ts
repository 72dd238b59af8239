import type { Protocol } from '../protocols/protocol.ts';
import { convertible, unitOf } from '../units/index.ts';
import type { ForceInput, ForceSelection } from './forces.ts';
import type { Recording } from './recording.ts';

/**
 * UCUM code in which a test's forces are analysed: newtons where body weight rests on the plates; else the test's own unit when
 * every chosen input converts to it, or the unit of the first input when that is a force or a torque.
 */
export function unitOfForces(recording: Recording, selection: ForceSelection, protocol: Protocol): string {
  if (protocol.load === 'weight') return 'N';
  const wanted = protocol.parameters?.unit ?? 'N';
  const fits = (input: ForceInput) =>
    input.newtonsPerUnit !== undefined || convertible(ownUnit(recording, input), wanted);
  const [first] = selection.inputs;
  if (first === undefined || selection.inputs.every(fits)) return wanted;
  const own = ownUnit(recording, first);
  const dimension = unitOf(own)?.dimension;
  return dimension === 'force' || dimension === 'torque' ? own : wanted;
}

const ownUnit = (recording: Recording, { from, unit }: ForceInput): string =>
  unit ?? (from.kind === 'platform' ? 'N' : (recording.channels[from.index]?.unit ?? ''));
