import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { builtChild } from '../../../tests/built-child.ts';
import { type Paper, pdfOf, squadReport } from '../src/index.ts';
import { documents, page, textOf } from './documents.ts';
import { eight, frame, oona } from './fernwater.ts';

const sha256 = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');

/** Tools of poppler judge the files from outside; where they are not installed nothing can be said. */
const poppler = (() => {
  try {
    execFileSync('pdfinfo', ['-v'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
})();

describe('a report as PDF', () => {
  it('is the same bytes each time, in another process and another time zone', async () => {
    const here = sha256(await pdfOf(page(), 'A4'));
    expect(sha256(await pdfOf(page(), 'A4'))).toBe(here);
    const script = await builtChild(resolve(import.meta.dirname, 'hash-of-page.ts'));
    const there = execFileSync(process.execPath, [script], {
      env: { ...process.env, TZ: 'Asia/Tokyo', LANG: 'de_DE.UTF-8' },
    });
    expect(there.toString().trim()).toBe(here);
    expect(sha256(await pdfOf(page(), 'Letter'))).not.toBe(here);
  });

  it('carries the date of its newest session and no clock', async () => {
    const bytes = Buffer.from(await pdfOf(page(), 'A4')).toString('latin1');
    const dates = [...bytes.matchAll(/D:(\d{14})/g)].map((found) => found[1]);
    expect(new Set(dates)).toEqual(new Set(['20260715083000']));
  });

  describe.runIf(poppler)('looked at by other programs', () => {
    let folder = '';
    beforeAll(() => {
      folder = mkdtempSync(join(tmpdir(), 'sthene-report-'));
    });
    afterAll(() => rmSync(folder, { recursive: true, force: true }));
    /** Lines broken for paper are one again. */
    const textIn = (path: string) => ask('pdftotext', ['-raw', path, '-']).replace(/\s+/g, ' ');
    const ask = (tool: string, args: string[]) => execFileSync(tool, args).toString();
    const written = async (name: string, paper: Paper, language: 'en' | 'de') => {
      const report = documents(language)[name];
      if (report === undefined) throw new Error(name);
      const path = join(folder, `${name}-${paper}-${language}.pdf`);
      writeFileSync(path, await pdfOf(report, paper));
      return path;
    };

    it.each(['athlete', 'young', 'battery', 'squad', 'session', 'reliability', 'methods', 'protocol', 'plates'])(
      '%s is tagged and has its size in both languages',
      async (name) => {
        for (const [paper, size, language] of [
          ['A4', '595.28 x 841.89', 'en'],
          // The longer language on the shorter paper.
          ['Letter', '612 x 792', 'de'],
        ] as const) {
          const info = ask('pdfinfo', [await written(name, paper, language)]);
          expect(info).toMatch(/Tagged: +yes/);
          expect(info).toContain(`Page size:       ${size}`);
          if (['athlete', 'young', 'battery', 'squad', 'protocol'].includes(name)) expect(info).toMatch(/Pages: +1\n/);
        }
      },
    );

    it('has a structure that is read aloud in order: title, figure with words, tables with heads', async () => {
      const path = await written('athlete', 'A4', 'en');
      const structure = ask('pdfinfo', ['-struct-text', path]);
      const order = ['H1', 'Oona', 'Figure', 'Caption', 'Table', 'TH'].map((one) => structure.indexOf(one));
      expect(order.every((at) => at >= 0)).toBe(true);
      expect([...order].sort((a, b) => a - b)).toEqual(order);
      expect(ask('pdfinfo', ['-struct', path])).toContain('Scope');
    });

    it('says in text what was found, in the way of the language', async () => {
      const english = textIn(await written('athlete', 'A4', 'en'));
      expect(english).toContain('3288 N');
      expect(english).toContain('+168 N (+5.4 %)');
      expect(english).toContain('less than 174 N');
      expect(english).toContain('no rig check on record');
      const german = textIn(await written('athlete', 'A4', 'de'));
      expect(german).toContain('Innerhalb der Streuung des Tests');
      expect(german).toContain('(+5,4 %)');
      expect(german).not.toContain('5.4');
    });

    it('embeds every font', async () => {
      const fonts = ask('pdffonts', [await written('reliability', 'A4', 'en')])
        .split('\n')
        .slice(2)
        .filter(Boolean);
      expect(fonts.length).toBeGreaterThan(0);
      for (const font of fonts) expect(font).toMatch(/DejaVuSansCondensed.* yes yes yes /);
    });
  });

  it('turns its pages for a large squad, with the head of the table on each', async () => {
    const rows = Array.from({ length: 200 }, (_, i) => ({
      ...(eight.rows[0] as (typeof eight.rows)[number]),
      person: { name: `Athlete ${i} of a long list`, code: `FW${i}`, birthDate: '1999-03-02' },
    }));
    const report = squadReport({ ...eight, rows }, frame);
    expect(textOf(report)).toContain('More than 48 athletes');
    const bytes = Buffer.from(await pdfOf(report, 'A4')).toString('latin1');
    const pages = bytes.match(/\/Type \/Page\b(?!s)/g)?.length ?? 0;
    expect(pages).toBeGreaterThan(3);
    expect(pages).toBeLessThan(9);
  });

  it('stays one page with a long history', async () => {
    const many = Array.from({ length: 60 }, (_, i) => ({
      ...(oona.sessions[1] as (typeof oona.sessions)[number]),
      id: `many-${i}`,
      at: new Date(Date.UTC(2021, i, 3)).toISOString(),
      value: 2800 + ((i * 37) % 400),
      unlike: ['Bar height above the plates', 'Grip', 'Straps', 'Method'],
    }));
    const report = page({ ...oona, sessions: many }, { ...frame, language: 'de' });
    const bytes = Buffer.from(await pdfOf(report, 'Letter')).toString('latin1');
    expect(bytes.match(/\/Type \/Page\b(?!s)/g)).toHaveLength(1);
  });
});
