import { jumpOnsetRules } from '../onset.ts';
import type { JumpMethod } from './jump-method.ts';

const rules: Readonly<Record<string, string>> = {
  'five-sd-of-flight': 'five SD of the force in the middle of the flight',
  'fixed-10': '10 N',
  'fixed-20': '20 N',
  'fixed-30': '30 N',
};

const summaries: Readonly<Record<JumpMethod['set']['summary'], string>> = {
  'mean-all': 'the mean of all jumps that count',
  'mean-best-two': 'the mean of the two best jumps that count',
  best: 'the best jump that counts',
};

/** What a jump method does, in sentences. */
export function jumpMethodSentences({
  filter,
  weighing,
  onset,
  flight,
  drop,
  split,
  checks,
  set,
}: JumpMethod): string[] {
  const share = set.agreementShare;
  return [
    filter === undefined
      ? 'The force is used as measured, without a filter.'
      : `The force goes through a zero-lag low-pass of ${filter.cutoff} Hz first.`,
    `Body weight is the mean of ${weighing.window} s of standing still within ${weighing.search} s of the jump.`,
    `The jump begins by the rule "${jumpOnsetRules.get(onset.rule)?.title ?? onset.rule}".`,
    `Take-off and touchdown lie where the force passes ${rules[flight.rule] ?? flight.rule}; the plates stay empty for ${flight.leastTime} s at least.`,
    `More than ${flight.rezero} N in flight is a drifted zero and is taken off.`,
    ...(drop === undefined
      ? []
      : [
          'A drop jump begins on a box that stands on a plate: body weight and fall are read from there to the touchdown.',
        ]),
    `A landing that is left again within ${split.bounce} s is a bounce, no jump of its own.`,
    `The value of a set is ${summaries[set.summary]}${share === undefined ? '' : `; another jump is asked for while the two best differ by more than ${100 * share} %`}.`,
    `${Object.keys(checks).length} checks look at a jump, each kind of jump at those that fit it.`,
  ];
}
