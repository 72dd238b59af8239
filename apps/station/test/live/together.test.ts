import { describe, expect, it } from 'vitest';
import { together } from '../../src/live/hub/together.ts';

/** A connection that notes what leaves in which write. */
function connection() {
  const writes: string[][] = [];
  let waiting: string[] | undefined;
  const socket = together(
    {
      bufferedAmount: 0,
      send(data, sent) {
        if (waiting === undefined) writes.push([data]);
        else waiting.push(data);
        sent();
      },
      close() {},
      terminate() {},
    },
    {
      cork() {
        waiting = [];
      },
      uncork() {
        if (waiting !== undefined && waiting.length > 0) writes.push(waiting);
        waiting = undefined;
      },
    },
  );
  return { writes, send: (data: string, soon: boolean) => socket.send(data, soon, () => {}) };
}

describe('messages of one turn of the event loop', () => {
  it('leave in one write, in order', async () => {
    const { writes, send } = connection();
    send('live', false);
    send('envelope', false);
    expect(writes).toEqual([]);
    await new Promise((done) => process.nextTick(done));
    expect(writes).toEqual([['live', 'envelope']]);
  });

  it('leave at once with one that is to go soon', async () => {
    const { writes, send } = connection();
    send('envelope', false);
    send('verdict', true);
    expect(writes).toEqual([['envelope', 'verdict']]);
    send('envelope', false);
    await new Promise((done) => process.nextTick(done));
    expect(writes).toEqual([['envelope', 'verdict'], ['envelope']]);
  });
});
