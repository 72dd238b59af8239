import * as before from './before-the-pull.ts';
import * as during from './during-the-pull.ts';
import * as equipment from './equipment.ts';
import type { Fault } from './fault.ts';
import * as feet from './feet.ts';

/** Every fault the simulation knows, in the order of a pull. */
export const faults: readonly Fault[] = [
  before.dip,
  before.tensionHeld,
  before.tensionTaken,
  before.slack,
  before.barKnock,
  before.stepOnLate,
  before.unsteadyStance,
  feet.reLanding,
  feet.oneFootOn,
  feet.otherFoot,
  during.earlyEnd,
  during.doublePull,
  during.steppedRise,
  during.peakAtEnd,
  equipment.spike,
  equipment.clipping,
  equipment.gap,
  equipment.lostSide,
  equipment.lowRate,
];

const byId: ReadonlyMap<string, Fault> = new Map(faults.map((fault) => [fault.id, fault]));
if (byId.size !== faults.length) throw new Error('two faults share an id');

/** A fault by id; an unknown id is a programming error and throws. */
export function faultById(id: string): Fault {
  const fault = byId.get(id);
  if (!fault) throw new Error(`unknown fault "${id}"; known: ${[...byId.keys()].join(', ')}`);
  return fault;
}
