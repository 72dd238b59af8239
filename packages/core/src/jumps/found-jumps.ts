import { filteredForces, filterNotUsable } from '../analysis/filtered.ts';
import type { AnalysisRequest } from '../analysis/request.ts';
import { wholeSpan } from '../analysis/whole-span.ts';
import { have, lack, type Outcome } from '../outcome.ts';
import type { JumpTest } from '../protocols/protocol.ts';
import type { Forces } from '../recording/forces.ts';
import type { Notice } from '../recording/notice.ts';
import { jumpBuilder, type RuleChoice } from './build-context.ts';
import type { JumpContext } from './jump-context.ts';
import { longestBy } from './longest.ts';
import { defaultJumpMethod } from './method/built-in.ts';
import type { JumpMethod } from './method/jump-method.ts';
import { type FoundJump, splitJumps } from './split.ts';

/** A jump as its method sees it, and as it would be seen by other rules. */
export interface JudgedJump {
  readonly jump: JumpContext;
  readonly found: FoundJump;
  readonly method: JumpMethod;
  /** The method's own rules. */
  readonly own: RuleChoice;
  /** The same jump by other rules, its motion to the end of the landing at least; undefined where they find none. */
  readonly under: (choice: RuleChoice) => JumpContext | undefined;
}

/** The jumps of a recording before anything is measured, and what is to be said of the request. */
export interface FoundJumps {
  readonly notices: readonly Notice[];
  /** In order of time; the reason why the recording cannot be read, or that it holds none. */
  readonly jumps: Outcome<readonly JudgedJump[]>;
}

/** Finds the jumps of a recording: one for `largest`, the jump with the longest flight; every jump for `all`. */
export function foundJumps(request: AnalysisRequest): FoundJumps {
  const { kind } = request.protocol.jump as JumpTest;
  const method = request.jumpMethod ?? defaultJumpMethod;
  const filtered = filteredForces(request.forces, method.filter);
  if (!filtered.ok) return { notices: [filterNotUsable(request.forces, method.filter)], jumps: filtered };
  const forces = filtered.value;
  const found = splitJumps(forces, wholeSpan(request), kind, method, request.bodyWeight?.value);
  const wanted = request.efforts === 'all' ? found : highest(found);
  const hand = wanted.length === 1 ? request.onsetByHand : undefined;
  const ignored =
    request.onsetByHand && !hand && wanted.length > 0
      ? [
          {
            code: 'onset-by-hand-ignored',
            message: `The onset placed by hand is not used: there are ${wanted.length} jumps, and it belongs to one.`,
          },
        ]
      : [];
  const jumps = wanted.flatMap((one) => judged(request, method, forces, one, hand) ?? []);
  return { notices: ignored, jumps: jumps.length === 0 ? lack('no-jump') : have(jumps) };
}

function judged(
  request: AnalysisRequest,
  method: JumpMethod,
  forces: Forces,
  found: FoundJump,
  hand: AnalysisRequest['onsetByHand'],
): JudgedJump | undefined {
  const own: RuleChoice = { onset: method.onset.rule, flight: method.flight.rule };
  const build = jumpBuilder(request, method, forces, found);
  const jump = build({ ...own, ...(hand ? { hand } : {}), reach: 'span' });
  if (jump === undefined) return undefined;
  const isOwn = ({ onset, flight }: RuleChoice) => onset === own.onset && flight === own.flight;
  const under = (choice: RuleChoice) =>
    isOwn(choice) && hand === undefined ? jump : build({ ...choice, reach: 'landing' });
  return { jump, found, method, own, under };
}

/** The jump with the longest flight, the first of equals. */
function highest(found: readonly FoundJump[]): FoundJump[] {
  const best = longestBy(found, ({ flights }) => Math.max(...flights.map(({ start, end }) => end - start)));
  return best === undefined ? [] : [best];
}
