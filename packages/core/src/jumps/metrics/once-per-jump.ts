import type { JumpContext } from '../jump-context.ts';

/** A measurement that several metrics of a jump ask for, made once for each jump: what a jump holds does not change while it is measured. */
export function oncePerJump<T>(measure: (jump: JumpContext) => T): (jump: JumpContext) => T {
  const known = new WeakMap<JumpContext, T>();
  return (jump) => {
    const before = known.get(jump);
    if (before !== undefined) return before;
    const made = measure(jump);
    known.set(jump, made);
    return made;
  };
}
