import type { Protocol } from '../protocols/protocol.ts';
import { deriveMethod } from './derive.ts';
import type { Method } from './method.ts';

const derived = new WeakMap<Method, Map<number, Method>>();

/**
 * The method as a test uses it: a test that sets its own baseline length gets a method derived for that, which results name; every
 * other test gets the method as it is.
 *
 * @throws RangeError when the test's baseline length is no usable length (a mistake in the test's definition)
 */
export function methodFor(method: Method, protocol: Protocol): Method {
  const seconds = protocol.parameters?.baselineSeconds;
  if (seconds === undefined || seconds === method.window.baseline) return method;
  const known = derived.get(method) ?? new Map<number, Method>();
  derived.set(method, known);
  let found = known.get(seconds);
  if (found === undefined) {
    const outcome = deriveMethod(method, { 'window.baseline': seconds });
    if (!outcome.ok) throw new RangeError(`The test "${protocol.id}" has a baseline of ${seconds} s.`);
    found = outcome.method;
    known.set(seconds, found);
  }
  return found;
}
