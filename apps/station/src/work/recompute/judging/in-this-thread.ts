import { setImmediate as turn } from 'node:timers/promises';
import { type BytesOf, orderJudge } from './judge-order.ts';
import type { Judges } from './judges.ts';
import type { JudgingOrder, Made } from './order.ts';

/** Judges in the thread that asks, and gives way to whatever else it has to do before each trial. */
export function inThisThread(bytesOf: BytesOf): Judges {
  const own = orderJudge(bytesOf);
  let gate = openGate();
  let closed = false;
  let last: Promise<unknown> = Promise.resolve();
  const breath = async () => {
    await turn();
    await gate.opened;
    if (closed) throw new Error('closed');
  };
  return {
    room: 1,
    judge(order: JudgingOrder): Promise<readonly Made[]> {
      const next = last.then(() => own.judge(order, breath));
      last = next.catch(() => {});
      return next;
    },
    hold(on) {
      // Asked again and again: whoever waits at a held gate goes on waiting.
      if (on === gate.held) return;
      gate.open();
      gate = on ? heldGate() : openGate();
    },
    async close() {
      closed = true;
      gate.open();
      await last;
    },
  };
}

interface Gate {
  readonly held: boolean;
  readonly opened: Promise<void>;
  readonly open: () => void;
}

const openGate = (): Gate => ({ held: false, opened: Promise.resolve(), open: () => {} });

function heldGate(): Gate {
  let open = (): void => {};
  const opened = new Promise<void>((resolve) => {
    open = resolve;
  });
  return { held: true, opened, open };
}
