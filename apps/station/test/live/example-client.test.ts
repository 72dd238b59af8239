import { type ChildProcess, spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type Day, liveRoutes, routes } from '@sthene/contract';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type StationUnderTest, stationUnderTest } from '../station-at.ts';
import { LiveClient } from './live-client.ts';
import { addPeople, addRig, by, inLab, twoPulls, virtual } from './set-up.ts';

const docs = new URL('../../../../docs/', import.meta.url);

/** The client of the documentation as a stranger starts it: a process of its own, with nothing of ours. */
function example(address: string, ...more: string[]) {
  const { NODE_OPTIONS: _, ...env } = process.env;
  const script = fileURLToPath(new URL('examples/live-client.mjs', docs));
  const child: ChildProcess = spawn(process.execPath, [script, address, ...more], { env });
  const said = { text: '' };
  for (const stream of [child.stdout, child.stderr])
    stream?.setEncoding('utf8').on('data', (text: string) => {
      said.text += text;
    });
  const ended = new Promise<number | null>((done) => child.once('exit', done));
  return { said, ended, stop: () => child.kill() };
}

describe('the client of the documentation', () => {
  let station: StationUnderTest;
  let watcher: LiveClient;
  let day: Day;
  beforeAll(async () => {
    station = await stationUnderTest();
    await station.ask(routes.createLab, { params: inLab, body: {} });
    const people = await addPeople(station);
    const rig = await addRig(station, 'A', virtual(3));
    day = await station.ask(liveRoutes.createDay, {
      params: inLab,
      body: { date: '2026-03-02', title: 'Winter tests', tests: [twoPulls], rigs: [rig], people, handsFree: false, by },
    });
    watcher = await LiveClient.join(station.address, 'operator', 'watcher-1');
    await station.ask(liveRoutes.openDay, { params: { ...inLab, id: day.id }, body: { by } });
    await watcher.next('rig', ({ rig: view }) => view.state === 'measuring');
  });
  afterAll(async () => {
    watcher?.close();
    await station.end();
  });

  it('follows the day and runs one guided turn to its verdict', { timeout: 240_000 }, async () => {
    const viewer = example(station.address);
    // Who looks on is there before anything happens.
    await expect.poll(() => viewer.said.text, { timeout: 60_000 }).toContain('snapshot: ');
    const operator = example(station.address, '--guide');
    try {
      await watcher.next('verdict', () => true, 0, 60);
      expect(await operator.ended, operator.said.text).toBe(0);
      expect(operator.said.text).toContain('controls: Example client');
      const verdict = watcher.of('verdict')[0]?.verdict;
      expect(verdict).toMatchObject({ person: { name: 'Wren Alder' }, effort: { kind: 'maximal' } });
      // On a busy machine the cue may be heard late, but it was given and the device said when.
      const held = verdict?.reasons.map(({ check }) => check);
      for (const reason of ['pulled-without-cue', 'cue-time-unknown']) expect(held).not.toContain(reason);
      const seen = `verdict: Wren Alder, ${verdict?.verdict}, Peak force `;
      await expect.poll(() => viewer.said.text, { timeout: 20_000 }).toContain(seen);
      for (const phase of ['zero', 'stand-still', 'set-up', 'ready', 'cue', 'pull', 'verdict'])
        expect(viewer.said.text).toContain(`rig A: ${phase} Wren Alder`);
      expect(viewer.said.text).toMatch(/rig A: \d+ N at \d/);
    } finally {
      viewer.stop();
      operator.stop();
    }
  });

  it('was sent nothing that the JSON Schema of the documentation does not describe', () => {
    const document = JSON.parse(readFileSync(new URL('reference/live-interface.schema.json', docs), 'utf8'));
    const ajv = new Ajv2020({ strict: false });
    ajv.addSchema(document, 'live');
    const fits = ajv.getSchema('live#/$defs/toOperator');
    if (fits === undefined) throw new Error('The document has no messages to operators.');
    expect(watcher.messages.length).toBeGreaterThan(200);
    for (const message of watcher.messages) expect(fits(message), JSON.stringify([message, fits.errors])).toBe(true);
    expect(fits({ type: 'cue', sequence: 1 })).toBe(false);
    const sent = ajv.getSchema('live#/$defs/toStation');
    expect(sent?.({ type: 'hello', protocol: 1, lab: 'lab', role: 'viewer', device: { id: 'x', name: 'x' } })).toBe(
      true,
    );
    expect(sent?.({ type: 'hello', protocol: 2, lab: 'lab', role: 'viewer', device: { id: 'x', name: 'x' } })).toBe(
      false,
    );
  });
});
