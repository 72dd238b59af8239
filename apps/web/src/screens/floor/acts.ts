import type { CommandKind, DayEntry, RigFloor } from '@sthene/contract';
import { liveWords } from '../../words/live.ts';

/** A button: what it says and what it asks for. Without `kind` it only tells what is being waited for. */
export interface Act {
  readonly kind?: CommandKind;
  readonly words: string;
}

export interface ActsInput {
  readonly floor: RigFloor;
  /** Who is due at this rig. */
  readonly nextName: string | undefined;
  /** Title of the test whoever is on the rig goes on with, where they are due themselves. */
  readonly nextTest: string | undefined;
  /** Whoever is due is ready before whoever is on the rig. */
  readonly nextSooner: boolean;
  readonly questionOpen: boolean;
  /** Seconds of rest left; 0 or less: over. */
  readonly restLeft: number;
  /** Whoever is on the rig has no effort left that they may do. */
  readonly nothingLeft: boolean;
}

const { act } = liveWords;

/** The large button of the phase: the one that Space, Page Down and a presenter press. */
export function mainAct({ floor, nextName, nextTest, questionOpen, restLeft, nothingLeft }: ActsInput): Act {
  const { phase, held, guided } = floor;
  if (held) return { kind: 'resume', words: act.resume };
  if (phase === 'cue') return { kind: 'abort', words: act.stopCount };
  if (phase === 'pull') return { kind: 'abort', words: act.stopPull };
  if (phase === 'jump') return { kind: 'abort', words: act.stopJump };
  if (questionOpen) return { words: act.answerFirst };
  switch (phase) {
    case 'waiting':
      return nextName === undefined ? { words: act.beginNobody } : { kind: 'begin', words: act.begin(nextName) };
    case 'zero':
      return { words: act.waitZero };
    case 'stand-still':
      return { words: act.waitStill };
    case 'set-up':
      return { kind: 'advance', words: floor.jump === undefined ? act.setUpDone : act.jumpReady };
    case 'ready':
      if (guided) return { kind: 'cue', words: act.startCount };
      // Armed, the cue comes by itself: what a hand is for then is to stop it.
      return floor.armed ? { kind: 'abort', words: act.stopCue } : { kind: 'arm', words: act.arm };
    case 'verdict':
      return { kind: 'advance', words: act.goToRest };
    case 'rest':
      if (nothingLeft && nextTest !== undefined) return { kind: 'begin', words: act.beginTest(nextTest) };
      if (nothingLeft)
        return nextName === undefined
          ? { kind: 'finish', words: act.finish }
          : { kind: 'begin', words: act.begin(nextName) };
      return restLeft > 0 ? { words: act.restNotOver } : { kind: 'advance', words: act.nextEffort };
  }
}

/** What else the phase allows. Stop, hold, pain stop and the end of the turn are always there and not listed here. */
export function otherActs({ floor, restLeft, nextName, nextSooner, nothingLeft }: ActsInput): readonly Act[] {
  const { phase, turn, held } = floor;
  if (turn === undefined || held) return [];
  const zero: Act = { kind: 'zero', words: act.zero };
  if (phase === 'zero' || phase === 'stand-still') return [zero];
  if (phase === 'set-up' || phase === 'ready') {
    const effort = turn.effort.kind === 'maximal' ? 'maximal' : 'submaximal';
    return [zero, { kind: 'skip', words: act.skip[effort] }];
  }
  const begin: Act[] = nextName === undefined || !nextSooner ? [] : [{ kind: 'begin', words: act.begin(nextName) }];
  if (phase === 'verdict') return begin;
  if (phase === 'rest' && !nothingLeft) {
    const skip: Act[] = restLeft > 0 ? [{ kind: 'skip', words: act.skip.rest }] : [];
    return [...skip, ...begin];
  }
  return [];
}

/**
 * Whether `next` is ready before `here`, who is on the rig: calling somebody who rests longer sends the one here off the plates for
 * nothing. Both rests are compared as one message told them, so no clock is asked.
 */
export function readySooner(next: Resting, here: Resting): boolean {
  const [nextLeft, hereLeft] = [next?.rest?.left, here?.rest?.left];
  if (nextLeft === undefined || nextLeft <= 0 || hereLeft === undefined) return true;
  return nextLeft < hereLeft;
}
type Resting = Pick<DayEntry, 'rest'> | undefined;

/** A cue that sounds by itself is on its way. */
export const cueArmed = ({ guided, armed, held, phase }: RigFloor): boolean =>
  !guided && armed && !held && (phase === 'ready' || phase === 'cue');

/** Shortest time between two presses that are both meant, ms. */
const bounce = 500;

/**
 * Whether a press is an echo. One right after a phase began was meant for the phase before it, and a clicker bounces. A stop only
 * minds the bounce of this device's own last press: it must work at once where the phase began by itself.
 */
export function tooSoon(
  kind: CommandKind,
  { phaseAt, pressedAt }: { readonly phaseAt: number; readonly pressedAt: number },
  now: number,
): boolean {
  if (now - pressedAt < bounce) return true;
  return kind !== 'abort' && now - phaseAt < bounce;
}
