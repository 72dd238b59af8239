import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { startStation } from '../src/start-station.ts';

// A connection that never asks for anything counts as busy for as long as the headers of a request may take: a minute in Node's HTTP.
it('ends although a browser holds a connection ready', async () => {
  const data = mkdtempSync(join(tmpdir(), 'sthene-closing-'));
  const station = await startStation({ port: 0, data });
  const held = connect(Number(new URL(station.address).port), '127.0.0.1');
  held.on('error', () => {});
  await once(held, 'connect');
  const cut = once(held, 'close');
  const began = performance.now();
  await station.close();
  await cut;
  expect(performance.now() - began).toBeLessThan(25_000);
  rmSync(data, { recursive: true, force: true });
});
