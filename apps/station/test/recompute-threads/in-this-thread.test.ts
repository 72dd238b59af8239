import { setTimeout as wait } from 'node:timers/promises';
import { expect, it } from 'vitest';
import { inThisThread } from '../../src/work/recompute/judging/in-this-thread.ts';
import type { JudgingOrder } from '../../src/work/recompute/judging/order.ts';

const orderOf = (trials: number) =>
  ({
    recording: 'f'.repeat(64),
    file: { format: 'text', name: 'gone.csv' },
    reading: {},
    trials: Array.from({ length: trials }, () => ({ trial: {}, session: {}, sha256: '' })),
  }) as unknown as JudgingOrder;

it('stands still at the next trial however often it is told so, goes on where it was, and ends in between', async () => {
  let asked = 0;
  const judges = inThisThread(() => {
    asked++;
    return undefined;
  });
  judges.hold(true);
  const answer = judges.judge(orderOf(3));
  for (let i = 0; i < 5; i++) {
    await wait(20);
    judges.hold(true);
  }
  expect(asked).toBe(0);
  judges.hold(false);
  expect((await answer).map((made) => 'code' in made && made.code)).toEqual(Array(3).fill('file-damaged'));
  expect(asked).toBe(3);
  judges.hold(true);
  const never = expect(judges.judge(orderOf(2))).rejects.toThrow('closed');
  await judges.close();
  await never;
  expect(asked).toBe(3);
});
