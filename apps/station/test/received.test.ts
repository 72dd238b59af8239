import { type ReceivedRequest, receivedRoutes, routes } from '@sthene/contract';
import { readExchange } from '@sthene/formats/results-table';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { simulatedFile } from './simulated-file.ts';
import { type StationUnderTest, stationUnderTest } from './station-at.ts';

let station: StationUnderTest;
let other: StationUnderTest;
const lab = { lab: 'lab' as const };
const by = 'Operator One';
const bytes = (text: string) => new TextEncoder().encode(text) as Uint8Array<ArrayBuffer>;

beforeAll(async () => {
  [station, other] = await Promise.all([stationUnderTest(), stationUnderTest()]);
  for (const one of [station, other]) await one.ask(routes.createLab, { params: lab, body: { name: 'Boathouse' } });
  for (const body of [
    { code: 'FW-01', givenName: 'Imre', familyName: 'Oakes', birthDate: '2001-05-30' },
    { code: 'FW-02', givenName: 'Tamsin', familyName: 'Ålund' },
  ])
    await station.ask(routes.createPerson, { params: lab, body });
});
afterAll(() => Promise.all([station.end(), other.end()]));

const send = async (text: string, name = 'earlier.csv', at = station) =>
  (await at.ask(routes.upload, { params: lab, query: { name }, bytes: bytes(text) })).id;
const previewOf = (upload: string, at = station) => at.ask(receivedRoutes.table, { params: lab, body: { upload } });
const people = () => station.ask(routes.people, { params: lab });
const idOf = async (code: string) => (await people()).find((one) => one.code === code)?.id as string;
const exchangeOf = async (at: StationUnderTest, query = '') =>
  (await fetch(`${at.address}api/labs/lab/exchange.csv${query}`)).text();
const refusal = (code: string) => ({ problem: { code } });

const table = `Athlete;Date;Trial;Peak force (kN);RFD 0-100 ms (N/s);Rank
Imre Oakes;01.03.2019;1;2,481;10250;1
Imre Oakes;01.03.2019;2;2,519;-;1
Alund, Tamsin;02.03.2019;1;1,902;sehr gut;2
Mira Falk;02.03.2019;1;2,1;9000;3
`;

async function request(upload: string, more: Partial<ReceivedRequest> = {}): Promise<ReceivedRequest> {
  const { mapping } = await previewOf(upload);
  return {
    upload,
    mapping,
    test: 'imtp',
    methodLabel: 'other lab, 5 SD onset',
    people: [],
    onDuplicate: 'skip',
    by,
    ...more,
  };
}

describe('a table of earlier results', () => {
  it('is understood before anything is decided', async () => {
    const upload = await send(table);
    const preview = await previewOf(upload);
    expect(preview).toMatchObject({ kind: 'table', rowCount: 4, questions: [], same: [] });
    expect(preview.mapping.columns.map(({ as }) => as)).toEqual([
      'name',
      'date',
      'trial',
      'values',
      'values',
      'ignore',
    ]);
    const written = (await station.ask(routes.audit, { params: lab })).total;
    const outcome = await station.ask(receivedRoutes.dryRun, { params: lab, body: await request(upload) });
    expect(outcome).toMatchObject({ dryRun: true, values: 0, sessions: 0, undecided: 3, notTaken: 6, missing: 1 });
    expect(outcome.people.map(({ said, match, candidates }) => [said, match, candidates[0]?.code])).toEqual([
      ['Imre Oakes', 'sure', 'FW-01'],
      ['Alund, Tamsin', 'doubtful', 'FW-02'],
      ['Mira Falk', 'unknown', undefined],
    ]);
    expect(outcome.refused).toEqual([expect.objectContaining({ code: 'cell-not-a-number', row: 4, column: 5 })]);
    // Making the id of a lab is the only thing a dry run may write, once.
    expect((await station.ask(routes.audit, { params: lab })).total - written).toBeLessThanOrEqual(1);
  });

  it('asks for what only a person can say', async () => {
    const upload = await send(table);
    const ask = async (more: Partial<ReceivedRequest>) =>
      station.ask(receivedRoutes.dryRun, { params: lab, body: { ...(await request(upload)), ...more } });
    await expect(ask({ methodLabel: undefined })).rejects.toMatchObject(refusal('received-no-method'));
    await expect(ask({ test: undefined })).rejects.toMatchObject(refusal('received-no-test'));
    await expect(ask({ mapping: undefined })).rejects.toMatchObject(refusal('request-invalid'));
    const { mapping } = await previewOf(upload);
    const without = (as: string) => ({
      mapping: { ...mapping, columns: mapping.columns.map((one) => (one.as === as ? { as: 'ignore' as const } : one)) },
    });
    await expect(ask(without('name'))).rejects.toMatchObject(refusal('received-no-people'));
    await expect(ask(without('date'))).rejects.toMatchObject(refusal('received-no-day'));
    await expect(ask(without('values'))).rejects.toMatchObject(refusal('received-no-values'));
    await expect(ask({ people: [{ key: 'x', id: 'nobody' }] })).rejects.toMatchObject(refusal('not-found'));
  });

  it('becomes sessions of results only, of decided people alone, marked with method and file', async () => {
    const upload = await send(table);
    const first = await station.ask(receivedRoutes.dryRun, { params: lab, body: await request(upload) });
    const [imre, tamsin, mira] = first.people;
    const body = await request(upload, {
      people: [
        { key: imre?.key as string, id: await idOf('FW-01') },
        { key: mira?.key as string, create: mira?.draft as never },
      ],
      remember: { signature: (await previewOf(upload)).signature, name: 'boathouse sheet' },
    });
    const outcome = await station.ask(receivedRoutes.import, { params: lab, body });
    expect(outcome).toMatchObject({ dryRun: false, sessions: 2, values: 5, undecided: 1, notTaken: 1 });
    expect(tamsin?.match).toBe('doubtful');
    const { rows } = await station.ask(routes.sessions, { params: lab });
    expect(rows.map(({ person, trials, received }) => [person.name, trials, received?.methodLabel])).toEqual([
      ['Mira Falk', 0, 'other lab, 5 SD onset'],
      ['Imre Oakes', 0, 'other lab, 5 SD onset'],
    ]);
    const view = await station.ask(routes.session, { params: { ...lab, id: outcome.made[0]?.id as string } });
    expect(view.received).toMatchObject({ fileName: 'earlier.csv', timeKnown: false });
    expect(view.values.map(({ metric, value, given }) => [metric, value, given.value])).toEqual([
      ['peak_force', 2481, '2,481'],
      ['rfd_0_100', 10250, '10250'],
      ['peak_force', 2519, '2,519'],
    ]);
    const kept = await fetch(`${station.address}api/labs/lab/received/${outcome.import}/file`);
    expect(await kept.text()).toBe(table);
    const repeated = await send(table);
    expect((await previewOf(repeated)).template).toBe('boathouse sheet');
    const anew = await station.ask(receivedRoutes.table, { params: lab, body: { upload: repeated, fresh: true } });
    expect(anew.template).toBeUndefined();
  });

  it('stands beside an athlete’s own values and enters none of them', async () => {
    const { bytes: curve } = await simulatedFile(5);
    const pull = await station.ask(routes.upload, { params: lab, query: { name: 'pull.csv' }, bytes: curve });
    const inputs = [0, 1].map((index) => ({
      from: { kind: 'channel' as const, index },
      part: (['left', 'right'] as const)[index] as 'left',
    }));
    const id = await idOf('FW-01');
    await station.ask(routes.import, {
      params: lab,
      body: {
        upload: pull.id,
        mapping: { reading: {}, inputs, test: 'imtp', efforts: 'largest' },
        person: { id },
        startedAt: '2019-03-01T09:00:00Z',
        by,
      },
    });
    const view = await station.ask(routes.athlete, { params: { ...lab, id }, query: { test: 'imtp' } });
    expect(view.sessions).toHaveLength(1);
    expect(view.received).toEqual([
      {
        letter: 'A',
        label: 'other lab, 5 SD onset',
        known: true,
        of: 'mean',
        unit: 'N',
        points: [expect.objectContaining({ value: 2500, n: 2, fileName: 'earlier.csv', timeKnown: false })],
      },
    ]);
    const squad = await station.ask(routes.squadTable, { params: lab, query: { test: 'imtp' } });
    const mira = squad.rows.find(({ person }) => person.name === 'Mira Falk');
    expect(mira).toEqual({ person: expect.anything(), sessions: 0, availability: 'after-answers' });
    const miraView = await station.ask(routes.athlete, { params: { ...lab, id: mira?.person.id as string } });
    expect(miraView).toMatchObject({ test: 'imtp', sessions: [], received: [{ points: [{ value: 2100 }] }] });
  });

  it('is recognised when it comes again, and says which values are there', async () => {
    const upload = await send(table);
    const id = await idOf('FW-01');
    const key = (await station.ask(receivedRoutes.dryRun, { params: lab, body: await request(upload) })).people[0]?.key;
    const decided = { people: [{ key: key as string, id }] };
    const again = await station.ask(receivedRoutes.dryRun, { params: lab, body: await request(upload, decided) });
    expect(again).toMatchObject({ values: 0, duplicateCount: 3, ownDays: 3, same: [{ fileName: 'earlier.csv' }] });
    expect(again.duplicates.every(({ where }) => where === 'received')).toBe(true);
    const keep = await request(upload, { ...decided, onDuplicate: 'keep' });
    expect((await station.ask(receivedRoutes.dryRun, { params: lab, body: keep })).values).toBe(3);
  });

  it('keeps values of unknown method apart, and is taken back and put back as a whole', async () => {
    const upload = await send(table.replaceAll('2019', '2018'), 'older.csv');
    const id = await idOf('FW-01');
    const [first] = (await station.ask(receivedRoutes.dryRun, { params: lab, body: await request(upload) })).people;
    const body = await request(upload, { methodLabel: 'Not known', people: [{ key: first?.key as string, id }] });
    const { import: made } = await station.ask(receivedRoutes.import, { params: lab, body });
    const lines = async () =>
      (await station.ask(routes.athlete, { params: { ...lab, id }, query: { test: 'imtp', metric: 'rfd_0_100' } }))
        .received;
    expect((await lines()).map(({ letter, label, known }) => [letter, label, known])).toEqual([
      ['A', 'not known', false],
      ['B', 'other lab, 5 SD onset', true],
    ]);
    const back = { takenBack: true, reason: 'wrong year', by };
    const params = { ...lab, id: made as string };
    expect(await station.ask(receivedRoutes.takeBack, { params, body: back })).toMatchObject({ takenBack: true, by });
    expect((await lines()).map(({ label }) => label)).toEqual(['other lab, 5 SD onset']);
    expect((await station.ask(routes.sessions, { params: lab, query: { text: 'Imre' } })).total).toBe(2);
    await station.ask(receivedRoutes.takeBack, { params, body: { ...back, takenBack: false } });
    expect(await lines()).toHaveLength(2);
    const listed = await station.ask(receivedRoutes.list, { params: lab });
    expect(listed.map(({ fileName, labels }) => [fileName, labels])).toEqual([
      ['older.csv', ['not known']],
      ['earlier.csv', ['other lab, 5 SD onset']],
    ]);
  });
});

describe('the exchange file', () => {
  const facts = async (text: string) => {
    const read = await readExchange(bytes(text));
    if (!read.ok) throw new Error(read.error.code);
    return read.rows
      .map(({ code, started_at, test, trial, of, metric, value, reason, unit, verdict, standing }) =>
        JSON.stringify([code, started_at, test, trial, of, metric, value, reason, unit, verdict, standing]),
      )
      .sort();
  };

  it('names people by code unless asked, and says method and recording of each value', async () => {
    const text = await exchangeOf(station);
    expect(text).not.toContain('Oakes');
    expect(await exchangeOf(station, '?names=true')).toContain(',Imre,Oakes,2001-05-30,');
    const read = await readExchange(bytes(text));
    const own = read.ok ? read.rows.find((row) => row.result_id && row.metric === 'peak_force') : undefined;
    expect(own).toMatchObject({ code: 'FW-01', test: 'imtp', effort: 'maximal', of: 'trial', unit: 'N', trial: 1 });
    expect(own?.method_sha256).toMatch(/^[0-9a-f]{64}$/);
    expect(own?.recording_sha256).toMatch(/^[0-9a-f]{64}$/);
    expect(read.ok && read.rows.filter((row) => row.method_label === 'not known')).toHaveLength(3);
  });

  it('changes nothing in the lab it comes from', async () => {
    const upload = await send(await exchangeOf(station), 'exchange.csv');
    expect(await previewOf(upload)).toMatchObject({ kind: 'exchange' });
    const body = { upload, people: [], onDuplicate: 'keep' as const, by };
    const seen = await station.ask(receivedRoutes.dryRun, { params: lab, body });
    const decided = {
      ...body,
      people: seen.people.map(({ key, candidates }) => ({ key, id: candidates[0]?.id as string })),
    };
    const outcome = await station.ask(receivedRoutes.dryRun, { params: lab, body: decided });
    expect(outcome).toMatchObject({ values: 0, sessions: 0, refusedCount: 0 });
    expect(outcome.duplicateCount).toBe((await facts(await exchangeOf(station))).length);
    expect(new Set(outcome.duplicates.map(({ where }) => where))).toEqual(new Set(['own-row']));
  });

  it('gives another lab the very same values, under the name, version and hash of their method', async () => {
    const text = await exchangeOf(station);
    const upload = await send(text, 'exchange.csv', other);
    const seen = await other.ask(receivedRoutes.dryRun, { params: lab, body: { upload, people: [], by } });
    expect(seen.people.map(({ match }) => match)).toEqual(['unknown', 'unknown']);
    const decided = { upload, people: seen.people.map(({ key, draft }) => ({ key, create: draft })), by };
    const outcome = await other.ask(receivedRoutes.import, { params: lab, body: decided });
    expect(outcome.refusedCount).toBe(0);
    expect(await facts(await exchangeOf(other))).toEqual(await facts(text));
    const [labels] = await other.ask(receivedRoutes.list, { params: lab });
    expect(labels?.labels).toEqual([
      expect.stringMatching(/^.+ \d+ [0-9a-f]{64}$/),
      'not known',
      'other lab, 5 SD onset',
    ]);
    // The same again, and the other lab's own file back home: every row is recognised.
    const again = await send(text, 'again.csv', other);
    const repeated = { ...decided, upload: again, people: await decisions(other, again) };
    expect((await other.ask(receivedRoutes.dryRun, { params: lab, body: repeated })).values).toBe(0);
    const home = await send(await exchangeOf(other), 'home.csv');
    const back = { upload: home, people: await decisions(station, home), by };
    expect((await station.ask(receivedRoutes.dryRun, { params: lab, body: back })).values).toBe(0);
  });

  const decisions = async (at: StationUnderTest, upload: string) =>
    (await at.ask(receivedRoutes.dryRun, { params: lab, body: { upload, people: [], by } })).people.map(
      ({ key, candidates }) => ({ key, id: candidates[0]?.id as string }),
    );
});
