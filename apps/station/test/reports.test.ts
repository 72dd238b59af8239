import { createHash } from 'node:crypto';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  ApiProblem,
  addressOf,
  type Person,
  type ReportFileQuery,
  type ReportKind,
  reportRoutes,
  routes,
} from '@sthene/contract';
import { zipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { labWithoutCurves } from './lab-without-curves.ts';
import { type StationUnderTest, stationUnderTest } from './station-at.ts';

const lab = 'lab' as const;
let station: StationUnderTest;
let people: Person[] = [];
beforeAll(async () => {
  station = await stationUnderTest(await labWithoutCurves(mkdtempSync(join(tmpdir(), 'sthene-reports-'))));
  people = await station.ask(routes.people, { params: { lab } });
});
afterAll(() => station?.end());

const get = async (kind: ReportKind, query: Partial<ReportFileQuery> = {}) => {
  const path = addressOf(reportRoutes.report, { lab, kind }, { zone: 'Europe/Vienna', ...query });
  const answer = await fetch(station.address.replace(/\/$/, '') + path);
  const bytes = new Uint8Array(await answer.arrayBuffer());
  return { status: answer.status, headers: answer.headers, bytes, text: new TextDecoder().decode(bytes) };
};
const page = async (kind: ReportKind, query: Partial<ReportFileQuery> = {}) =>
  (await get(kind, { ...query, as: 'html' })).text;
const code = ({ text }: { text: string }) => JSON.parse(text).code as string;
const idOf = (wanted: string) => people.find((one) => one.code === wanted)?.id as string;

describe('reports over HTTP', () => {
  it('are files with a name, the same bytes when asked again', async () => {
    const first = await get('athlete', { person: 'FW01' });
    expect(first.status).toBe(200);
    expect(first.headers.get('content-type')).toBe('application/pdf');
    expect(first.headers.get('content-disposition')).toBe('attachment; filename="fw01-imtp-peak-force-2026-05-11.pdf"');
    expect(first.text.slice(0, 8)).toBe('%PDF-1.7');
    const hash = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');
    expect(hash((await get('athlete', { person: 'FW01' })).bytes)).toBe(hash(first.bytes));
    expect(hash((await get('athlete', { person: idOf('FW01') })).bytes)).toBe(hash(first.bytes));
  });

  it('tells of the values of the test of the protocol, ratios among them', async () => {
    const jump = { protocol: 'countermovement-jump' };
    expect(await page('methods', jump)).toContain('Jump height');
    const two = await page('methods', { ...jump, metric: 'jump_height,dynamic_strength_index' });
    expect(two).toContain('Dynamic strength index');
    expect(two).toContain('Sheppard');
    // A value of another test, chosen before this one, gives way to the headline.
    const other = await page('methods', { ...jump, metric: 'peak_force' });
    expect(other).toContain('Jump height');
    expect(other).toBe(await page('methods', jump));
    expect(await page('methods', { protocol: 'imtp', metric: 'dynamic_strength_index' })).toContain('Sheppard');
  });

  it.each([
    ['squad', {}],
    ['reliability', { sessions: 3 }],
    ['methods', {}],
    ['protocol', { protocol: 'imtp' }],
  ] as const)('%s comes in every format that it has', async (kind, query) => {
    for (const as of ['pdf', 'html', 'xlsx', 'csv'] as const)
      expect((await get(kind, { ...query, as })).status).toBe(200);
    const svg = await get(kind, { ...query, as: 'svg' });
    if (kind === 'squad') {
      expect(svg.text).toMatch(/^<svg /);
      const png = await get(kind, { ...query, as: 'png', part: 'squad' });
      expect(png.headers.get('content-type')).toBe('image/png');
    } else expect(code(svg)).toBe('report-no-such-part');
  });

  it('say the numbers of the screens', async () => {
    const view = await station.ask(routes.athlete, { params: { lab, id: idOf('FW01') } });
    const newest = view.sessions.at(-1)?.value as number;
    const csv = (await get('athlete', { person: 'FW01', as: 'csv', part: 'sessions' })).text.split('\r\n');
    expect(csv[0]).toBe('session,value [N],sd [N],trials,note');
    // Half past ten at night in UTC is the next day in Vienna.
    expect(csv[1]?.split(',').slice(0, 2)).toEqual(['2026-05-11', String(newest)]);
    const { correlations, error } =
      (await station.ask(routes.reliability, { params: { lab }, query: { sessions: 3 } })).study ?? {};
    const told = (await get('reliability', { sessions: 3, as: 'csv' })).text;
    expect(told).toContain(`ICC("2,1")`.replace('("2,1")', '(2,1)'));
    const row = (start: string) => told.split('\r\n').find((line) => line.startsWith(start)) as string;
    expect(Number(row('"ICC(2,1)"').split('",')[1]?.split(',')[0])).toBeCloseTo(
      correlations?.['2,1'].ok ? correlations['2,1'].value.value : Number.NaN,
      12,
    );
    expect(Number(row('Typical error').split(',')[1])).toBeCloseTo(100 * Math.expm1((error?.value ?? 0) / 100), 10);
  });

  it('tell the flow of trials: made, rejected by which check, overruled by whom, used', async () => {
    const flow = (await get('reliability', { sessions: 2, as: 'csv', part: 'flow' })).text;
    const step = (id: string) => flow.split('\r\n').find((line) => line.startsWith(`${id},`));
    expect(
      ['efforts', 'maximal', 'counts', 'repeat', 'counting', 'familiarisation', 'older', 'used'].map((id) =>
        Number(step(id)?.split(',')[1]),
      ),
    ).toEqual([36, 36, 33, 3, 36, 9, 9, 18]);
    expect(step('overruled')).toContain('Wren: 3');
    expect((await get('reliability', { as: 'csv', part: 'checks' })).text).toContain('pretension,3,0');
    const html = await page('reliability');
    for (const said of [
      'no rig check on record',
      'weighed (18 efforts)',
      '“Go.” (6 sessions)',
      'sthene 0.1.0',
      '72 to 73',
    ])
      expect(html).toContain(said);
  });

  it('log a session with who overruled and why', async () => {
    const { rows } = await station.ask(routes.sessions, { params: { lab }, query: { person: idOf('FW01') } });
    const html = await page('session', { session: rows[0]?.id as string });
    for (const said of [
      'Tension on the bar before the pull (repeat): 62.0',
      'overruled to count by Wren',
      'Slack was taken out on purpose.',
      'mixed',
      '613',
    ])
      expect(html).toContain(said);
  });

  it('hold nothing of the mass of whoever is under 18 or may be', async () => {
    for (const person of ['FW02', 'FW03']) {
      expect(code(await get('athlete', { person, metric: 'peak_force_relative' }))).toBe('report-mass-of-minor');
      expect((await get('athlete', { person })).status).toBe(200);
      const { rows } = await station.ask(routes.sessions, { params: { lab }, query: { person: idOf(person) } });
      const log = await page('session', { session: rows[0]?.id as string });
      expect(log).not.toMatch(/61[23]|62\.[45]/);
      expect(log).toContain('not printed: under 18');
    }
    const asAdult = { person: 'FW03', metric: 'peak_force_relative', unknownAge: 'as-adult' } as const;
    expect((await get('athlete', asAdult)).status).toBe(200);
    expect((await get('athlete', { ...asAdult, person: 'FW02' })).status).toBe(422);
    const masses = await page('squad', { metric: 'peak_force_relative' });
    expect(masses).not.toMatch(/Tamsin|Szőke/);
    expect(masses).toContain('2 athletes are left out');
    // Only the adult has a place in the squad.
    const z = (await get('squad', { as: 'csv' })).text
      .split('\r\n')
      .slice(1, 4)
      .map((line) => line.split(',')[3]);
    expect(z.filter((one) => one !== '')).toHaveLength(1);
  });

  it('refuse with a code and a next step', async () => {
    expect(code(await get('athlete'))).toBe('report-subject-missing');
    expect(code(await get('athlete', { person: 'nobody' }))).toBe('not-found');
    expect(code(await get('athlete', { person: 'FW01', zone: 'Nowhere/Land' }))).toBe('time-zone-unknown');
    expect(code(await get('athlete', { person: 'FW01', as: 'csv', part: 'nothing' }))).toBe('report-no-such-part');
    expect(code(await get('squad', { test: 'isometric-squat', metric: 'nothing' }))).toBe('not-found');
  });

  it('are looked at without scripts, inside our own pages only', async () => {
    const { headers, text } = await get('athlete', { person: 'FW03', as: 'html', language: 'de' });
    expect(headers.get('content-security-policy')).toMatch(/default-src 'none'.*frame-ancestors 'self'.*sandbox/);
    expect(text).toContain('Krafttest');
    const content = await station.ask(reportRoutes.reportContent, { params: { lab, kind: 'squad' } });
    expect(content.tables[0]?.tabbed).toContain("'=Pál Szőke (FW03)");
    expect(content.figures[0]?.svg).toContain('=Pál Szőke');
  });
});

describe('name and logo', () => {
  const show = () => station.ask(reportRoutes.reportAppearance, { params: { lab } });
  const change = (logo: string | null | undefined) =>
    station.ask(reportRoutes.changeReportAppearance, {
      params: { lab },
      body: {
        labName: 'Boathouse laboratory',
        paper: 'Letter',
        language: 'de',
        zone: 'Europe/Vienna',
        unknownAge: 'as-minor',
        by: 'Wren',
        ...(logo === undefined ? {} : { logo }),
      },
    });
  /** 120 x 80; start, frame header, end. */
  const jpeg = Buffer.from('ffd8ffe000040000ffc0000b0800500078010111 00ffd9'.replace(' ', ''), 'hex').toString(
    'base64',
  );

  it('are the lab’s own, and go on every page', async () => {
    expect(await show()).toMatchObject({ labName: 'Fernwater Rowing Club', paper: 'A4', language: 'en' });
    expect(await change(jpeg)).toMatchObject({ logo: { mediaType: 'image/jpeg', width: 120, height: 80 } });
    const html = await page('athlete', { person: 'FW01' });
    expect(html).toContain('Boathouse laboratory');
    expect(html).toContain('data:image/jpeg;base64,');
    expect(html).toContain('Krafttest');
    expect((await get('athlete', { person: 'FW01' })).text).toContain('/MediaBox [0 0 612 792]');
    // Not said again: the logo stays. Taken away: it goes.
    expect(await change(undefined)).toHaveProperty('logo');
    expect(await change(null)).not.toHaveProperty('logo');
  });

  it('refuse what is no picture, or too large, and keep what was', async () => {
    const refused = async (bytes: Uint8Array) => {
      const error = await change(Buffer.from(bytes).toString('base64')).catch((thrown: unknown) => thrown);
      return error instanceof ApiProblem ? error.problem.code : error;
    };
    expect(await refused(new TextEncoder().encode('<svg xmlns="http://www.w3.org/2000/svg"/>'))).toBe(
      'logo-not-an-image',
    );
    expect(await refused(zipSync({}))).toBe('logo-not-an-image');
    expect(await refused(new Uint8Array(500_001))).toBe('logo-too-large');
    expect(await show()).not.toHaveProperty('logo');
  });
});
