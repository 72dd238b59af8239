import type { CheckDefinition, CheckResult } from '../../checks/check.ts';
import type { JumpKind } from '../../protocols/protocol.ts';
import type { JumpContext } from '../jump-context.ts';

/** A released check on a jump: the same facts as any check, and the kinds of jump it looks at. Never edited. */
export interface JumpCheckDefinition extends Omit<CheckDefinition, 'judge'> {
  readonly kinds: readonly JumpKind[];
  readonly judge: (jump: JumpContext, limits: Readonly<Record<string, number>>) => CheckResult;
}

export const proposal = 'Definition and limits are proposals of this program';
