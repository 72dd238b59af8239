import type { Command, CommandKind, RigFloor } from '@sthene/contract';

/** Why a command was not sent; permanent codes. */
export type Unsent = 'link-lost' | 'clock-unknown' | 'no-controls' | 'no-turn';

/** Stopping is the safe side: any operator may, without holding the controls. */
const stopping: ReadonlySet<CommandKind> = new Set(['abort', 'pain', 'hold', 'disarm']);
const withoutTurn: ReadonlySet<CommandKind> = new Set(['begin', 'blank-wall', 'show-wall']);

/** What only some commands carry. */
export type CommandExtra = Partial<Pick<Command, 'entry' | 'decision' | 'note' | 'trial'>>;

/** What a device must know before it may send. */
export interface Sender {
  readonly open: boolean;
  readonly holdsControls: boolean;
  /** Station clock now as this device knows it, ms; undefined before the first probe. */
  readonly stationNow: number | undefined;
}

/**
 * A command for what is on the screen now, or why there is none. It names turn, effort and phase it was meant for and is worth one
 * second, so that the station never carries it out late. Nothing is kept for later: without a link there is no command.
 */
export function commandFor(
  kind: CommandKind,
  floor: RigFloor,
  sender: Sender,
  id: string,
  extra: CommandExtra = {},
): Command | Unsent {
  if (!sender.open) return 'link-lost';
  if (!sender.holdsControls && !stopping.has(kind)) return 'no-controls';
  const { turn, trial } = floor;
  if (turn === undefined && !withoutTurn.has(kind)) return 'no-turn';
  // A stop needs no time: the station takes it however old it is.
  if (sender.stationNow === undefined && !stopping.has(kind)) return 'clock-unknown';
  return {
    type: 'command',
    id,
    kind,
    rig: floor.rig,
    ...(turn === undefined ? {} : { turn: turn.id }),
    ...(trial === undefined ? {} : { trial }),
    phase: floor.phase,
    at: sender.stationNow ?? 0,
    expires: 1000,
    ...extra,
  };
}

/** True when a command or a cue given at `at` must not be acted on any more. Times of one clock, ms. */
export const isExpired = ({ at, expires }: { readonly at: number; readonly expires: number }, now: number): boolean =>
  now - at > expires;
