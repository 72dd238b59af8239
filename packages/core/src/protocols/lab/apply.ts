import { deriveMethod, type MethodChanges } from '../../methods/derive.ts';
import type { Method } from '../../methods/method.ts';
import type { Protocol } from '../protocol.ts';
import { protocolRegistry } from '../registry.ts';
import { type RunningRules, runningRules } from '../running.ts';
import type { ProtocolDocument } from './document.ts';

/** A protocol as the pieces that engine and analysis take. */
export interface AppliedProtocol {
  /** The test with the document's cue, lengths, numbers, setup fields, and its local rules before the cautions. */
  readonly test: Protocol;
  readonly running: RunningRules;
}

const applied = new WeakMap<ProtocolDocument, AppliedProtocol>();

/**
 * The test and the rules of a day as a protocol has them. The test keeps id, version, load, limbs and pool.
 *
 * @throws RangeError when the document names a test this program does not have; `validateProtocol` refuses such a one
 */
export function applyProtocol(document: ProtocolDocument): AppliedProtocol {
  let found = applied.get(document);
  if (found === undefined) {
    found = made(document);
    applied.set(document, found);
  }
  return found;
}

function made(document: ProtocolDocument): AppliedProtocol {
  const base = protocolRegistry.get(document.test.id);
  if (base === undefined) throw new RangeError(`There is no test "${document.test.id}".`);
  const { warmUp, maximal, rest, cue, pull, extraTrial, stop, setupFields, localRules } = document;
  const test: Protocol = {
    ...base,
    cue: cue.words,
    pullSeconds: { planned: pull.seconds, warnUnder: pull.warnUnder, failUnder: pull.failUnder },
    restSeconds: rest.minimum,
    maximalTrials: maximal,
    setupFields,
    cautions: [...localRules, ...base.cautions],
  };
  const usual = runningRules(base);
  const running: RunningRules = {
    ...usual,
    warmUp: warmUp.efforts,
    rest: { afterSubmaximal: warmUp.rest, minimum: rest.minimum, maximum: rest.maximum },
    cue: { ...usual.cue, delay: cue.delay, count: cue.count, spoken: cue.voice === 'spoken' },
    stop: {
      rejectedInARow: stop.rejectedInARow,
      ...(stop.fall === undefined ? {} : { fall: stop.fall }),
      closes: stop.act === 'close',
    },
    agreement: {
      difference: extraTrial.difference,
      ...(extraTrial.share === undefined ? {} : { share: extraTrial.share }),
    },
    minorAgreementShare: extraTrial.minorShare,
  };
  return { test, running };
}

const methods = new WeakMap<Method, WeakMap<ProtocolDocument, Method>>();

/**
 * The lab's method with the checks as a protocol has them: the method itself where the protocol changes nothing, else one derived
 * from it, which results name. A jump test is judged by a jump method (`jumpMethodOfProtocol`) and leaves this one as it is. What the
 * method lacks cannot be switched off, and what it does not know keeps its usual limits.
 *
 * @throws RangeError when the changes are no method, which `validateProtocol` keeps from happening
 */
export function methodOfProtocol(method: Method, document: ProtocolDocument): Method {
  if (protocolRegistry.get(document.test.id)?.jump !== undefined) return method;
  const known = methods.get(method) ?? new WeakMap<ProtocolDocument, Method>();
  methods.set(method, known);
  let found = known.get(document);
  if (found === undefined) {
    const outcome = deriveMethod(method, changesOf(method, document));
    if (!outcome.ok) throw new RangeError(`The checks of "${document.name}" do not fit the method "${method.name}".`);
    found = outcome.method;
    known.set(document, found);
  }
  return found;
}

function changesOf(method: Method, { checks }: ProtocolDocument): MethodChanges {
  const changes: Record<string, number | string> = {};
  for (const [id, { use, limits = {} }] of Object.entries(checks)) {
    const there = method.checks[id];
    if (!use) {
      if (there !== undefined) changes[`checks.${id}`] = 'off';
      continue;
    }
    if (there === undefined) changes[`checks.${id}`] = 'on';
    for (const [limit, value] of Object.entries(limits))
      if (there?.limits[limit] !== value) changes[`checks.${id}.limits.${limit}`] = value;
  }
  return changes;
}
