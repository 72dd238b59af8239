import type { Command, OrderName } from './input.ts';
import type { Machine } from './machine.ts';
import type { RefusalCode } from './refusal.ts';

/**
 * How exactly a command must fit the present. `exact`: turn, trial, phase and expiry. `turn`: turn and expiry, for what names its
 * own object or only begins a turn. `stop`: only the turn; stopping is always the safe side, so neither a phase that moved on nor a
 * slow link takes it away.
 */
const fit: Readonly<Record<OrderName, 'exact' | 'turn' | 'stop'>> = {
  arm: 'exact',
  advance: 'exact',
  'cue-now': 'exact',
  'redo-zero': 'exact',
  skip: 'exact',
  resume: 'turn',
  'end-turn': 'turn',
  answer: 'turn',
  judge: 'turn',
  'release-pain': 'turn',
  'next-athlete': 'turn',
  identify: 'turn',
  'woke-up': 'stop',
  'rate-checked': 'turn',
  disarm: 'stop',
  abort: 'stop',
  hold: 'stop',
  'pain-stop': 'stop',
};

/** Why a command does not fit the present; undefined when it does. */
export function addressed(machine: Machine, command: Command): RefusalCode | undefined {
  const wanted = fit[command.order];
  // Pain of a named athlete is recorded whoever is on the rig.
  const named = command.order === 'pain-stop' && command.person !== undefined;
  if (wanted !== 'stop' && isExpired(machine, command)) return 'expired';
  if (command.turn !== machine.turnNumber && !named) return 'wrong-turn';
  if (wanted !== 'exact') return undefined;
  if (command.trial !== machine.trial) return 'wrong-trial';
  return command.phase === machine.phase ? undefined : 'wrong-phase';
}

const isExpired = (machine: Machine, { at, expires }: Command): boolean =>
  typeof expires === 'bigint' ? at > expires : machine.now > expires;
