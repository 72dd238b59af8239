import type { SetRule } from '../methods/method.ts';
import type { Protocol } from '../protocols/protocol.ts';
import type { RunningRules } from '../protocols/running.ts';

/**
 * The set rule of a day: agreement as the running rules have it, else as the method has it; closing as the test has it. A share for
 * athletes under 18 takes the place of the newtons where there is no other share.
 */
export function setRuleOf(
  rule: SetRule,
  { maximalTrials, jump }: Pick<Protocol, 'maximalTrials' | 'jump'>,
  rules: Pick<RunningRules, 'agreement' | 'minorAgreementShare'>,
  minor: boolean,
): SetRule {
  const { agreementShare, ...rest } = rule;
  // Newtons say nothing of two heights: without a share the jump method's own agreement holds.
  const own = jump !== undefined && rules.agreement?.share === undefined ? undefined : rules.agreement;
  const share = (own === undefined ? agreementShare : own.share) ?? (minor ? rules.minorAgreementShare : undefined);
  return {
    ...rest,
    agreement: own?.difference ?? rule.agreement,
    closesAfter: maximalTrials.maximum,
    ...(share === undefined ? {} : { agreementShare: share }),
  };
}
