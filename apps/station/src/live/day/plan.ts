import type { DayPlan, PlannedEffort } from '@sthene/contract';
import {
  applyProtocol,
  defaultJumpMethod,
  type JumpMethod,
  jumpMethodOfProtocol,
  type Method,
  methodOfProtocol,
  type Protocol,
  type ProtocolDocument,
  protocolReference,
  type RunningRules,
  type SetRule,
  type SubmaximalEffort,
  usualProtocol,
} from '@sthene/core';
import type { OpenLab } from '../../labs/open-lab.ts';
import { problems } from '../../server/problem-error.ts';
import { documentOf } from '../../work/protocols.ts';

/** The plan of one test together with the protocol version it names. */
export interface RunPlan extends DayPlan {
  readonly document: ProtocolDocument;
}

/** What a day asks for: a test, a protocol version by its hash, or a plan in full. */
export type WantedPlan = string | { readonly protocol: string } | DayPlan;

/** A plan as given, or the one that its protocol proposes; a test alone takes the built-in protocol of the test. */
export async function planFor(lab: OpenLab, wanted: WantedPlan): Promise<DayPlan> {
  if (typeof wanted === 'string') return planOf(usualOf(wanted));
  if (!('test' in wanted)) return planOf(await documentOf(lab, wanted.protocol));
  const { document } = await runPlan(lab, wanted);
  if (document.test.id !== wanted.test) throw problems.invalid('The protocol is one of another test.');
  if (wanted.rest.maximum <= wanted.rest.minimum)
    throw problems.invalid('The longest rest must be longer than the shortest.');
  return wanted;
}

/** The plan a protocol proposes. */
export function planOf(document: ProtocolDocument): DayPlan {
  const { warmUp, maximal, rest, test } = document;
  return {
    test: test.id,
    protocol: protocolReference(document).sha256,
    efforts: [
      ...warmUp.efforts.map(({ share }): PlannedEffort => ({ kind: 'submaximal', share })),
      ...Array.from({ length: maximal.planned }, (): PlannedEffort => ({ kind: 'maximal' })),
    ],
    rest: { minimum: rest.minimum, maximum: rest.maximum },
  };
}

/** A plan with its protocol; one from before there were versions is run by the built-in protocol of its test. */
export async function runPlan(lab: OpenLab, plan: DayPlan): Promise<RunPlan> {
  const document = plan.protocol === undefined ? usualOf(plan.test) : await documentOf(lab, plan.protocol);
  return { ...plan, document };
}

function usualOf(test: string): ProtocolDocument {
  try {
    return usualProtocol(test);
  } catch {
    throw problems.notFound('test');
  }
}

/** The plan as it is kept and shown. */
export function bare({ document: _, ...plan }: RunPlan): DayPlan {
  return plan;
}

/** The test as the protocol has it. */
export const testOf = ({ document }: RunPlan): Protocol => applyProtocol(document).test;

/** The running rules of a plan: its submaximal efforts and rests, where the day has its own, over the protocol's. */
export function rulesOf(plan: RunPlan): RunningRules {
  const { document, rest } = plan;
  const { running } = applyProtocol(document);
  const ownRest = rest.minimum !== document.rest.minimum;
  return {
    ...running,
    warmUp: warmUpOf(plan, running.warmUp),
    rest: {
      afterSubmaximal: ownRest ? Math.min(running.rest.afterSubmaximal, rest.minimum) : running.rest.afterSubmaximal,
      minimum: rest.minimum,
      maximum: rest.maximum,
    },
  };
}

function warmUpOf({ efforts }: DayPlan, usual: readonly SubmaximalEffort[]): readonly SubmaximalEffort[] {
  const shares = efforts.flatMap(({ kind, share }) => (kind === 'maximal' ? [] : [share]));
  if (shares.length === usual.length && shares.every((share, i) => share === usual[i]?.share)) return usual;
  const last = usual.at(-1);
  return shares.map(
    (share = 0.5) =>
      usual.find((one) => one.share === share) ?? {
        share,
        band: last?.band ?? 0.15,
        weightShare: last?.weightShare ?? 1.5,
      },
  );
}

/** What a plan's efforts are judged by; `jumpMethod` in a jump test, where `method` has no say. */
export interface Recipes {
  readonly method: Method;
  readonly jumpMethod?: JumpMethod;
}

/** The lab's method, and in a jump test the jump method, with what the plan's protocol changes in it. */
export function recipesOf(method: Method, plan: Pick<RunPlan, 'document'>): Recipes {
  const own = methodOfProtocol(method, plan.document);
  if (applyProtocol(plan.document).test.jump === undefined) return { method: own };
  return { method: own, jumpMethod: jumpMethodOfProtocol(defaultJumpMethod, plan.document) };
}

/** How a set of the plan's maximal efforts is judged. */
export const setRuleFor = (rule: SetRule, plan: Pick<RunPlan, 'document'>): SetRule => {
  const { jump } = applyProtocol(plan.document).test;
  return jump === undefined ? rule : jumpMethodOfProtocol(defaultJumpMethod, plan.document).set;
};

export const maximalOf = (plan: DayPlan): number => plan.efforts.filter(({ kind }) => kind === 'maximal').length;
