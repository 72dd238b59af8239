import { deviceNow } from './clock.ts';
import type { LinkSocket } from './link.ts';

/** What a link needs of the browser. */
export const browserParts = {
  // The cast only narrows: handlers of the browser get more than is used here.
  socket: (url: string) => new WebSocket(url) as unknown as LinkSocket,
  now: deviceNow,
  later: (act: () => void, ms: number) => window.setTimeout(act, ms),
  forget: (timer: number) => window.clearTimeout(timer),
};

/** Reads a text as a message of a schema; undefined when it is none. */
export const parsed =
  <M>(schema: { safeParse(value: unknown): { success: true; data: M } | { success: false } }) =>
  (text: unknown): M | undefined => {
    try {
      const result = schema.safeParse(JSON.parse(String(text)));
      return result.success ? result.data : undefined;
    } catch {
      return undefined;
    }
  };
