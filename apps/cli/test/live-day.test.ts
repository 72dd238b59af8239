import { type ChildProcess, spawn } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { virtualDescription } from '@sthene/capture';
import { call, routes, type SessionView, type TrialView } from '@sthene/contract';
import { afterEach, describe, expect, it } from 'vitest';
import { builtChild } from '../../../tests/built-child.ts';
import { folder, pullFile, sthene } from './at-terminal.ts';

const inLab = { lab: 'lab' as const };
let child: ChildProcess | undefined;
afterEach(() => {
  child?.kill('SIGKILL');
  child = undefined;
});

/** Starts the command as a person would, and gives back its address and a way to stop it as Ctrl-C does. */
async function station(...args: string[]): Promise<{ address: string; stop(): Promise<number | null> }> {
  const main = await builtChild(resolve(import.meta.dirname, '../src/main.ts'));
  const one = spawn(process.execPath, [main, 'station', ...args], {
    stdio: ['ignore', 'ignore', 'pipe'],
    env: { ...process.env, CI: '1' },
  });
  child = one;
  let said = '';
  const address = await new Promise<string>((done, failed) => {
    one.stderr?.on('data', (piece: Buffer) => {
      said += piece.toString();
      const found = /ready: (\S+)/.exec(said)?.[1];
      if (found !== undefined) done(found.replace(/\/$/, ''));
    });
    one.once('exit', (code) => failed(new Error(`ended with ${code}: ${said}`)));
  });
  return {
    address,
    stop: () =>
      new Promise((done) => {
        one.removeAllListeners('exit');
        one.once('exit', (code) => done(code));
        one.kill('SIGINT');
      }),
  };
}

/** What the HTTP API shows once so many efforts are there. */
async function shown(address: string, trials: number): Promise<{ sessions: SessionView[]; trials: TrialView[] }> {
  const ask = ((route: never, input: never) =>
    call((url, init) => fetch(url, init as RequestInit), address, route, input)) as unknown as (
    route: unknown,
    input: unknown,
  ) => Promise<never>;
  for (let tries = 0; tries < 600; tries++) {
    const page: { rows: { id: string; trials: number }[] } = await ask(routes.sessions, { params: inLab });
    if (page.rows.reduce((sum, row) => sum + row.trials, 0) >= trials) {
      const sessions: SessionView[] = [];
      for (const { id } of page.rows) sessions.push(await ask(routes.session, { params: { ...inLab, id } }));
      const views: TrialView[] = [];
      for (const { rows } of sessions)
        for (const { id } of rows) views.push(await ask(routes.trial, { params: { ...inLab, id } }));
      return { sessions, trials: views };
    }
    await new Promise((done) => setTimeout(done, 100));
  }
  throw new Error(`not ${trials} efforts within a minute`);
}

/** What `sessions`, `trials` and `export` say of the data folder of a station that was stopped. */
async function expectSameAtTerminal(data: string, out: string, api: Awaited<ReturnType<typeof shown>>): Promise<void> {
  const listed = JSON.parse((await sthene('sessions', '--data', data, '--json')).out) as { sessions: { id: string }[] };
  expect(listed.sessions.map(({ id }) => id).sort()).toEqual(api.sessions.map(({ id }) => id).sort());
  const text = (await sthene('sessions', '--data', data)).out;
  for (const { person } of api.sessions) expect(text).toContain(person.code);
  for (const { id } of api.sessions) {
    const told = JSON.parse((await sthene('trials', id, '--data', data, '--json')).out) as { trials: TrialView[] };
    for (const trial of told.trials) {
      const other = api.trials.find((one) => one.id === trial.id);
      // Of an effort that came after the question nothing was shown.
      if (other !== undefined) expect(trial.result.metrics).toEqual(other.result.metrics);
    }
    expect(told.trials.length).toBeGreaterThan(0);
  }
  expect(await sthene('export', '--all', out, '--data', data)).toMatchObject({ code: 0 });
  const files = readdirSync(out);
  expect(files.filter((name) => name.endsWith('.parquet')).length).toBeGreaterThanOrEqual(api.trials.length);
  const table = readFileSync(join(out, files.find((name) => name.endsWith('.csv')) ?? ''), 'utf8');
  for (const { result } of api.trials) {
    const peak = result.metrics.peak_force;
    if (peak !== undefined && 'value' in peak) expect(table).toContain(String(peak.value));
  }
}

describe('sthene station --source FILE --hands-free', () => {
  const root = folder();

  it('runs a day on virtual plates that every command then shows', { timeout: 150_000 }, async () => {
    const [data, file, people] = [join(root, 'virtual'), join(root, 'plates.json'), join(root, 'people.txt')];
    writeFileSync(file, JSON.stringify(virtualDescription('Virtual plates', 'fernwater-three', 7, 15)));
    writeFileSync(people, 'Wren,Alder,FW01\nHeron,Birch,FW02\n');
    const running = await station(
      '--data',
      data,
      '--source',
      file,
      '--hands-free',
      '--people',
      people,
      '--port',
      '5650',
    );
    const api = await shown(running.address, 1);
    expect(await running.stop()).toBe(0);
    await expectSameAtTerminal(data, join(root, 'virtual-out'), api);
  });

  const recordings = resolve(import.meta.dirname, '../../../../shared/data/two-plate-jumps');
  const others = existsSync(recordings);
  it.each([
    { what: 'simulated pulls', left: 'left', right: 'right', from: undefined },
    ...(others
      ? [{ what: 'recordings of others', left: 'ground_force2_vy', right: 'ground_force1_vy', from: recordings }]
      : []),
  ])(
    'takes $what from a watched folder, and they are what sthene analyze says of them',
    {
      timeout: 150_000,
    },
    async ({ what, left, right, from }) => {
      const own = join(root, what.replaceAll(' ', '-'));
      const [data, watched, file, people] = ['data', 'in', 'plates.json', 'people.txt'].map((name) =>
        join(own, name),
      ) as [string, string, string, string];
      mkdirSync(watched, { recursive: true });
      const channels = [left, right].map((name, i) => ({
        name,
        plate: String(i),
        side: i === 0 ? 'left' : 'right',
        axis: 'z',
        unit: 'N',
        scale: 1,
        offset: 0,
      }));
      const transport = { kind: 'folder', path: watched, pattern: '*.csv' };
      writeFileSync(
        file,
        JSON.stringify({ schema: 'sthene.source/1', name: 'Watched folder', transport, channels, rate: 1000 }),
      );
      writeFileSync(people, 'Wren,Alder,FW01\nHeron,Birch,FW02\n');
      const running = await station(
        '--data',
        data,
        '--source',
        file,
        '--hands-free',
        '--people',
        people,
        '--port',
        '5660',
      );
      const files: string[] = [];
      for (let i = 0; i < 2; i++) {
        const path =
          from === undefined
            ? await pullFile(own, i + 3)
            : join(from, readdirSync(from).filter((name) => name.endsWith('.csv'))[i] ?? '');
        copyFileSync(path, join(watched, `effort-${i}.csv`));
        files.push(path);
        await shown(running.address, i + 1);
      }
      const api = await shown(running.address, 2);
      expect(await running.stop()).toBe(0);
      await expectSameAtTerminal(data, join(own, 'out'), api);
      const stored = new Map(api.trials.map(({ result, session }) => [session.id, result.metrics]));
      const byCode = new Map(api.sessions.map(({ id, person }) => [person.code, stored.get(id)]));
      for (const [i, path] of files.entries()) {
        const { code, out, err } = await sthene(
          'analyze',
          path,
          '--left',
          left,
          '--right',
          right,
          '--unit',
          'N',
          '--json',
        );
        expect(code, err).toBe(0);
        const document = JSON.parse(out) as {
          recordings: { trials: { metrics: Record<string, { value?: number; reason?: string }> }[] }[];
        };
        const analysed = document.recordings[0]?.trials[0]?.metrics ?? {};
        const kept = byCode.get(`FW0${i + 1}`) ?? {};
        let compared = 0;
        for (const [id, metric] of Object.entries(kept)) {
          // To the last digit, and with the same reason where there is no value.
          if ('value' in metric) expect(analysed[id]?.value, id).toBe(metric.value);
          else expect(analysed[id]?.value, id).toBeUndefined();
          compared++;
        }
        expect(compared).toBeGreaterThan(30);
      }
    },
  );
});
