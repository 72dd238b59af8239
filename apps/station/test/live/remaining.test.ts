import { protocolRegistry, runningRules } from '@sthene/core';
import { expect, it } from 'vitest';
import { type Done, remainingOf } from '../../src/live/day/remaining.ts';

const protocol = protocolRegistry.get('imtp');
if (protocol === undefined) throw new Error('no such test');
const plan = {
  test: 'imtp',
  efforts: [
    { kind: 'submaximal' as const, share: 0.5 },
    { kind: 'submaximal' as const, share: 0.75 },
    { kind: 'maximal' as const },
  ],
  rest: { minimum: 60, maximum: 600 },
};
const submaximal = (ended?: string): Done => ({
  kind: 'submaximal',
  result: {} as Done['result'],
  counts: true,
  ...(ended === undefined ? {} : { ended }),
});
const shares = (done: readonly Done[]) =>
  remainingOf(plan, done, protocol, runningRules(protocol), false).map(({ share }) => share);

it('a submaximal effort is done when it was made to its end, live or in a file', () => {
  expect(shares([])).toEqual([0.5, 0.75, undefined]);
  expect(shares([submaximal('released')])).toEqual([0.75, undefined]);
  expect(shares([submaximal()])).toEqual([0.75, undefined]);
});

it.each(['aborted', 'too-long', 'signal-lost'])('one that was %s is still to be done', (ended) => {
  expect(shares([submaximal(ended)])).toEqual([0.5, 0.75, undefined]);
  expect(shares([submaximal('released'), submaximal(ended)])).toEqual([0.75, undefined]);
});
