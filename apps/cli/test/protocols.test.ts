import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { call, protocolRoutes, routes } from '@sthene/contract';
import { builtInProtocols, protocolReference, usualProtocol } from '@sthene/core';
import { startStation } from '@sthene/station';
import { describe, expect, it } from 'vitest';
import { folder, sthene } from './at-terminal.ts';

const at = folder();
const usual = usualProtocol('imtp');

describe('sthene protocols', () => {
  it('lists the built-in ones where no lab was set up', async () => {
    const { code, out } = await sthene('protocols', 'list', '--json', '--data', join(at, 'none'));
    expect(code).toBe(0);
    const { schema, protocols } = JSON.parse(out);
    expect(schema).toBe('sthene.protocols/1');
    expect(protocols.map((one: { id: string }) => one.id)).toEqual(builtInProtocols.all.map(({ id }) => id));
    expect((await sthene('protocols', 'list', '--data', join(at, 'none'))).out).toContain(
      'built in as imtp-first-time',
    );
  });

  it('shows one in sentences or as its document, and refuses one that is not there', async () => {
    const { out } = await sthene('protocols', 'show', 'imtp');
    expect(out).toContain(`SHA-256 ${protocolReference(usual).sha256}`);
    expect(out).toContain('3 maximal pulls of 5 s');
    expect(JSON.parse((await sthene('protocols', 'show', 'imtp', '--json')).out)).toEqual(usual);
    const missing = await sthene('protocols', 'show', 'nothing', '--data', join(at, 'none'));
    expect(missing).toMatchObject({ code: 4, out: '' });
    expect(missing.err).toContain('[protocol-unknown]');
    const version = await sthene('protocols', 'show', 'imtp', '--number', '2');
    expect(version.err).toContain('[protocol-version-unknown]');
  });

  it('exports into a new file and never over one', async () => {
    const file = join(at, 'pull.protocol.json');
    expect(await sthene('protocols', 'export', 'imtp', '--out', file)).toMatchObject({ code: 0, out: '' });
    expect(JSON.parse(readFileSync(file, 'utf8'))).toEqual(usual);
    const again = await sthene('protocols', 'export', 'imtp-explosive', '--out', file);
    expect(again).toMatchObject({ code: 8, out: '' });
    expect(again.err).toContain('[file-exists]');
    expect(JSON.parse(readFileSync(file, 'utf8'))).toEqual(usual);
  });

  it('checks a file: faults on stderr with exit 3, advice beside the sentences, differences in words', async () => {
    const good = join(at, 'good.json');
    writeFileSync(
      good,
      JSON.stringify({ $schema: './protocol-format.schema.json', ...usual, rest: { minimum: 60, maximum: 600 } }),
    );
    const fine = await sthene('protocols', 'check', good);
    expect(fine.code).toBe(0);
    expect(fine.out).toContain('60 s of rest between them');
    expect(fine.err).toContain('[advice-short-rest]');
    const bad = join(at, 'bad.json');
    writeFileSync(bad, JSON.stringify({ ...usual, rest: { minimum: 5, maximum: 600 }, colour: 'red' }));
    const refused = await sthene('protocols', 'check', bad);
    expect(refused).toMatchObject({ code: 3, out: '' });
    expect(refused.err).toContain('[protocol-out-of-range]');
    expect(refused.err).toContain('[protocol-field-unknown]');
    expect(JSON.parse((await sthene('protocols', 'check', bad, '--json')).out)).toMatchObject({
      usable: false,
      faults: [
        { code: 'protocol-field-unknown', at: 'colour' },
        { code: 'protocol-out-of-range', at: 'rest.minimum' },
      ],
    });
    const plain = join(at, 'plain.json');
    writeFileSync(plain, JSON.stringify(usual));
    const compared = await sthene('protocols', 'check', good, '--against', plain);
    expect(compared.out).toContain('Shortest rest after a maximal effort: 2 min -> 60 s');
    const text = join(at, 'letter.txt');
    writeFileSync(text, 'Dear rowers,');
    expect((await sthene('protocols', 'check', text)).err).toContain('[protocol-not-json]');
    expect((await sthene('protocols', 'check', join(at, 'nowhere.json'))).err).toContain('[file-not-found]');
  });

  it("finds the lab's own by name and version", async () => {
    const data = join(at, 'lab');
    const station = await startStation({ port: 0, data, webFolder: join(at, 'no-web') });
    const ask = (route: unknown, input: unknown) =>
      call(
        (url, init) => fetch(url, init as RequestInit),
        station.address.replace(/\/$/, ''),
        route as never,
        input as never,
      );
    try {
      await ask(routes.createLab, { params: { lab: 'lab' }, body: {} });
      const document = { ...usual, name: 'Boathouse pull' };
      const made = (await ask(protocolRoutes.createProtocol, {
        params: { lab: 'lab' },
        body: { document, by: 'Rowan' },
      })) as {
        id: string;
        versions: { sha256: string }[];
      };
      const next = {
        document: { ...document, rest: { minimum: 90, maximum: 600 } },
        after: made.versions[0]?.sha256,
        by: 'Rowan',
      };
      await ask(protocolRoutes.succeedProtocol, { params: { lab: 'lab', id: made.id }, body: next });
    } finally {
      await station.close();
    }
    expect((await sthene('protocols', 'list', '--data', data)).out).toContain('Boathouse pull, version 2');
    expect((await sthene('protocols', 'show', 'boathouse pull', '--data', data)).out).toContain('90 s of rest');
    const first = await sthene('protocols', 'export', 'Boathouse pull', '--number', '1', '--data', data);
    expect(JSON.parse(first.out)).toMatchObject({ version: 1, rest: { minimum: 120 } });
  });
});
