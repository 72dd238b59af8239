import type { CommandKind, RigFloor } from '@sthene/contract';
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
  readonly questionOpen: boolean;
  /** Seconds of rest left; 0 or less: over. */
  readonly restLeft: number;
}

const { act } = liveWords;

/** The large button of the phase: the one that Space, Page Down and a presenter press. */
export function mainAct({ floor, nextName, questionOpen, restLeft }: ActsInput): Act {
  const { phase, held, guided } = floor;
  if (held) return { kind: 'resume', words: act.resume };
  if (phase === 'cue') return { kind: 'abort', words: act.stopCount };
  if (phase === 'pull') return { kind: 'abort', words: act.stopPull };
  if (questionOpen) return { words: act.answerFirst };
  switch (phase) {
    case 'waiting':
      return nextName === undefined ? { words: act.beginNobody } : { kind: 'begin', words: act.begin(nextName) };
    case 'zero':
      return { words: act.waitZero };
    case 'stand-still':
      return { words: act.waitStill };
    case 'set-up':
      return { kind: 'advance', words: act.setUpDone };
    case 'ready':
      return guided || floor.armed ? { kind: 'cue', words: act.startCount } : { words: act.waitTension };
    case 'verdict':
      return { kind: 'advance', words: act.goToRest };
    case 'rest':
      return restLeft > 0 ? { words: act.restNotOver } : { kind: 'advance', words: act.nextEffort };
  }
}

/** What else the phase allows. Stop, hold, pain stop and the end of the turn are always there and not listed here. */
export function otherActs({ floor, restLeft, nextName }: ActsInput): readonly Act[] {
  const { phase, turn, held } = floor;
  if (turn === undefined || held) return [];
  const zero: Act = { kind: 'zero', words: act.zero };
  if (phase === 'zero' || phase === 'stand-still') return [zero];
  if (phase === 'set-up' || phase === 'ready') {
    const effort = turn.effort.kind === 'maximal' ? 'maximal' : 'submaximal';
    return [zero, { kind: 'skip', words: act.skip[effort] }];
  }
  if (phase === 'rest') {
    const skip: Act[] = restLeft > 0 ? [{ kind: 'skip', words: act.skip.rest }] : [];
    return nextName === undefined ? skip : [...skip, { kind: 'begin', words: act.begin(nextName) }];
  }
  return [];
}

/** A press right after a phase began was meant for the one before it: a clicker bounces, and people press twice. */
export const tooSoon = (phaseAt: number, now: number): boolean => now - phaseAt < 500;
