import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { routes } from '@sthene/contract';
import { startStation } from '@sthene/station';
import { beforeAll, describe, expect, it } from 'vitest';
import { folder, sthene } from './at-terminal.ts';

const at = folder();
const data = join(at, 'data');
const empty = join(at, 'empty');
const file = (name: string, text: string) => {
  writeFileSync(join(at, name), text);
  return join(at, name);
};

beforeAll(async () => {
  for (const place of [data, empty]) {
    const station = await startStation({ port: 0, data: place, webFolder: join(at, 'no-web') });
    const json = { method: 'POST', headers: { 'content-type': 'application/json' } };
    const base = station.address.replace(/\/$/, '');
    await fetch(base + routes.createLab.path.replace(':lab', 'lab'), { ...json, body: '{}' });
    if (place === data)
      await fetch(base + routes.createPerson.path.replace(':lab', 'lab'), {
        ...json,
        body: JSON.stringify({ code: 'FW-01', givenName: 'Imre', familyName: 'Oakes' }),
      });
    await station.close();
  }
});

const table = 'Name,Date,Peak force (N)\nImre Oakes,3/4/2019,2481.5\nMira Falk,4/5/2019,2100\nI. Oakes,5/6/2019,much\n';
const bring = (name: string, ...more: string[]) => sthene('import-results', name, '--data', data, ...more);

describe('sthene import-results', () => {
  it('asks for what the table leaves open, and leaves nothing behind', async () => {
    const path = file('earlier.csv', table);
    const answers = [
      await bring(path),
      await bring(path, '--day-order', 'dmy'),
      await bring(path, '--day-order', 'dmy', '--method-label', 'hand timing'),
    ];
    expect(answers.map(({ code, err }) => [code, /\[(.+)\]/.exec(err)?.[1]])).toEqual([
      [3, 'received-day-order-open'],
      [3, 'received-no-method'],
      [3, 'received-no-test'],
    ]);
    expect((await bring('nothing.csv')).err).toContain('[file-not-found]');
  });

  it('says what it would do, imports, and recognises the same file', async () => {
    const path = file('earlier.csv', table);
    const options = ['--day-order', 'dmy', '--method-label', 'not known', '--test', 'imtp'];
    const dry = await bring(path, ...options, '--dry-run');
    expect(dry.out).toContain('Would import 1 value as 1 session without curves');
    expect(dry.out).toContain('unknown   Mira Falk, 1 value');
    expect(dry.out).toContain('"much" [cell-not-a-number]');
    const people = file('people.json', '{"Mira Falk": "new"}');
    const done = await bring(path, ...options, '--people', people, '--json');
    expect(JSON.parse(done.out)).toMatchObject({
      schema: 'sthene.import-results/1',
      outcome: { values: 2, sessions: 2, refusedCount: 1 },
    });
    const again = await bring(path, ...options);
    expect(again.code).toBe(4);
    expect(again.out).toContain('note  this very file was brought in');
    expect(again.out).toContain('(received)');
    const listed = await sthene('sessions', '--data', data);
    expect(listed.out.match(/imtp/g)).toHaveLength(2);
  });

  it('carries everything into another lab by an exchange file, value for value', async () => {
    const path = join(at, 'exchange.csv');
    expect((await sthene('exchange', path, '--data', data)).err).toContain('Wrote 2 rows');
    expect((await sthene('exchange', path, '--data', data)).err).toContain('[output-exists]');
    const into = await sthene('import-results', path, '--data', empty, '--create-unknown');
    expect(into.out).toContain('Imported 2 values as 2 sessions');
    const back = await sthene('exchange', '--data', empty);
    const values = (text: string) =>
      text
        .trim()
        .split('\r\n')
        .slice(1)
        .map((line) => line.split(',').slice(20, 24).join())
        .sort();
    expect(values(back.out)).toEqual(values(readFileSync(path, 'utf8')));
    expect(values(back.out)[1]).toBe('unknown,peak_force,2481.5,N');
  });
});
