import { afterEach, expect, it } from 'vitest';
import type { JudgingOrder } from '../../src/work/recompute/judging/order.ts';
import { JudgingThreads } from '../../src/work/recompute/judging/threads.ts';

const stub = new URL('./stub-thread.mjs', import.meta.url);
const orderOf = (...names: string[]) =>
  ({ recording: '', reading: {}, trials: names.map((sha256) => ({ sha256 })) }) as unknown as JudgingOrder;

const open: JudgingThreads[] = [];
const threads = (script = stub, count = 2) => {
  const one = new JudgingThreads(script, '/nowhere', count);
  open.push(one);
  return one;
};
afterEach(async () => {
  for (const one of open.splice(0)) await one.close();
});
const stubbed = (name: string) => ({ code: 'stub', words: name });

it('answers every order with its own trials, more of them than there is room for', async () => {
  const pool = threads();
  const names = Array.from({ length: 60 }, (_, i) => [`a${i}`, `b${i}`] as const);
  const made = await Promise.all(names.map((pair) => pool.judge(orderOf(...pair))));
  expect(made).toEqual(names.map((pair) => pair.map(stubbed)));
});

it('names the trial that ends a thread, twice, and judges all others', async () => {
  const pool = threads(stub, 1);
  const asked = [orderOf('one', 'ends', 'two'), orderOf('three'), orderOf('ends'), orderOf('four', 'five')];
  const [first, second, third, fourth] = await Promise.all(asked.map((order) => pool.judge(order)));
  const ended = expect.objectContaining({ code: 'judging-ended', words: expect.stringContaining('code 7') });
  expect(first).toEqual([stubbed('one'), ended, stubbed('two')]);
  expect(second).toEqual([stubbed('three')]);
  expect(third).toEqual([ended]);
  expect(fourth).toEqual([stubbed('four'), stubbed('five')]);
});

it('passes on a fault that is not a trial’s, and refuses what is asked of it once it is closed', async () => {
  const pool = threads();
  await expect(pool.judge(orderOf('disk'))).rejects.toThrow('The disk failed.');
  expect(await pool.judge(orderOf('fine'))).toEqual([stubbed('fine')]);
  const under = expect(pool.judge(orderOf('late'))).rejects.toThrow('closed');
  await pool.close();
  await under;
  await expect(pool.judge(orderOf('later'))).rejects.toThrow('closed');
});

it('says so where no thread can be started, instead of waiting', async () => {
  const pool = threads(new URL('./no-such-thread.mjs', import.meta.url));
  await expect(pool.judge(orderOf('one'))).rejects.toThrow('No thread could be started');
  await expect(pool.judge(orderOf('two'))).rejects.toThrow('No thread could be started');
});
