import type { BrowserContextOptions } from 'playwright-core';
import type { StationUnderTest, WatchedPage } from './station-under-test.ts';

/** A page with every message and answer it was sent, as data. */
export interface HeardPage extends WatchedPage {
  readonly heard: readonly unknown[];
}

/** Opens a page that keeps what the station sends it: messages of the live connection and answers to its requests. */
export async function bytesOf(station: StationUnderTest, options?: BrowserContextOptions): Promise<HeardPage> {
  const page = await station.page(options);
  const heard: unknown[] = [];
  page.on('websocket', (socket) => {
    socket.on('framereceived', ({ payload }) => {
      heard.push(JSON.parse(String(payload)));
    });
  });
  page.on('response', (response) => {
    if (!new URL(response.url()).pathname.startsWith('/api/')) return;
    // Whatever is no JSON would be a recording or a curve, and those hold the stand-still.
    response
      .json()
      .then((body: unknown) => heard.push(body))
      .catch(() => heard.push({ type: 'bytes', url: response.url() }));
  });
  return Object.assign(page, { heard });
}

/** Counters, clocks and indices are no forces. */
const noForce =
  /^(sequence|revision|position|samples?|first|bucket|rate|at|t0|t1|t2|monotonic|since|start|end|onset|peak|from|bytes|age|left|count|secondsLeft|seconds|tookMs|freeBytes|bytesPerSecond|n|skipped|expires|promised|measured|uncertainty|people|trials|protocol|gaps|missing)$/;

interface Found {
  readonly path: string;
  readonly value: number;
}

/** Every number of a message that may be a force; the curve itself passes every value on its way and is looked at by itself. */
export function numbersIn(message: unknown): Found[] {
  const found: Found[] = [];
  const walk = (value: unknown, path: string, key: string): void => {
    if (typeof value === 'number') {
      if (!noForce.test(key)) found.push({ path, value });
    } else if (Array.isArray(value)) {
      for (const [i, one] of value.entries()) walk(one, `${path}.${i}`, key);
    } else if (value !== null && typeof value === 'object') {
      for (const [name, one] of Object.entries(value)) walk(one, `${path}.${name}`, name);
    }
  };
  const { type } = message as { type?: string };
  if (type === 'bytes') throw new Error(`the page was sent a file: ${(message as { url?: string }).url}`);
  if (type !== 'envelope' && type !== 'wall-envelope' && type !== 'live') walk(message, type ?? 'answer', '');
  return found;
}
