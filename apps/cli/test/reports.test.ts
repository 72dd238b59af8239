import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { labWithoutCurves } from '../../station/test/lab-without-curves.ts';
import { folder, sthene } from './at-terminal.ts';

describe('sthene report', () => {
  const data = folder();
  const out = folder();
  beforeAll(async () => {
    await labWithoutCurves(data);
  });

  it('writes one page into a file or a folder, and never over one that is there', async () => {
    const file = join(out, 'imre.pdf');
    const asked = ['report', 'athlete', '--data', data, '--person', 'FW01', '--zone', 'UTC'];
    expect(await sthene(...asked, '--out', file)).toMatchObject({ code: 0, out: `${file}\n` });
    expect(readFileSync(file).subarray(0, 8).toString()).toBe('%PDF-1.7');
    const again = await sthene(...asked, '--out', file);
    expect([again.code, again.err]).toEqual([7, expect.stringContaining('[output-exists]')]);
    const { out: said } = await sthene(...asked, '--out', out, '--as', 'csv', '--json');
    expect(JSON.parse(said)).toEqual({
      schema: 'sthene.report/1',
      files: [join(out, 'fw01-imtp-peak-force-2026-05-10.csv')],
      failed: [],
    });
    const other = await sthene(...asked, '--out', join(out, 'page.xlsx'));
    expect([other.code, other.err]).toEqual([2, expect.stringContaining('[report-format-differs]')]);
  });

  it('writes a page for each athlete of a squad, names who has none, and keeps the others', async () => {
    const pages = join(out, 'pages');
    const { code, err } = await sthene(
      'report',
      'athlete',
      '--data',
      data,
      '--squad',
      'juniors',
      '--out',
      pages,
      '--language',
      'de',
    );
    expect([code, err]).toEqual([0, expect.stringContaining('2 of 2  =Pál Szőke (FW03)')]);
    expect(readdirSync(pages).sort()).toEqual([
      expect.stringMatching(/^fw02-imtp-peak-force-.*\.pdf$/),
      expect.stringMatching(/^fw03-imtp-peak-force-.*\.pdf$/),
    ]);
    const masses = join(out, 'masses');
    const some = await sthene(
      ...['report', 'athlete', '--data', data, '--everybody', '--out', masses],
      '--metric',
      'peak_force_relative',
    );
    expect(some.code).toBe(3);
    expect(some.err).toContain('[report-mass-of-minor]');
    expect(readdirSync(masses)).toHaveLength(1);
  });

  it('writes the other reports, and refuses with words', async () => {
    for (const kind of ['squad', 'reliability', 'methods'])
      expect((await sthene('report', kind, '--data', data, '--out', out, '--as', 'xlsx')).code).toBe(0);
    expect((await sthene('report', 'protocol', '--protocol', 'imtp', '--data', data, '--out', out)).code).toBe(0);
    const nobody = await sthene('report', 'athlete', '--data', data, '--person', 'nobody');
    expect([nobody.code, nobody.err]).toEqual([4, expect.stringContaining('[not-found]')]);
    const whose = await sthene('report', 'athlete', '--data', data);
    expect([whose.code, whose.err]).toEqual([3, expect.stringContaining('[report-subject-missing]')]);
    expect((await sthene('report', 'everything', '--data', data)).code).toBe(2);
  });
});
