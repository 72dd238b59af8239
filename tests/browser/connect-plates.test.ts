import { readFileSync } from 'node:fs';
import { call, liveRoutes, routes } from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seriousFindings } from './axe.ts';
import { type SimulatedDevice, simulatedDevice } from './simulated-device.ts';
import { type StationUnderTest, stationUnderTest, type WatchedPage, whyNot } from './station-under-test.ts';

const reason = whyNot();

describe.skipIf(reason !== undefined)(`connecting plates${reason ? ` (${reason})` : ''}`, () => {
  let station: StationUnderTest;
  let device: SimulatedDevice;
  let page: WatchedPage;
  let saved = '';
  const lab = { lab: 'lab' as const };
  const base = () => station.address.replace(/\/$/, '');
  const nobodyCalls = async () => {
    for (let i = 0; i < 400 && device.callers > 0; i++) await new Promise((done) => setTimeout(done, 25));
    return device.callers === 0;
  };
  beforeAll(async () => {
    station = await stationUnderTest();
    device = await simulatedDevice();
    await call(fetch as never, base(), routes.createLab, { params: lab, body: { name: 'Boathouse' } });
    page = await station.page({ viewport: { width: 1180, height: 820 } });
  });
  afterAll(async () => {
    await station?.close();
    await device?.close();
  });

  it('hears an unknown device, recognises its layout, and shows its values while it is described', async () => {
    await page.goto('/lab/rig/sources/new');
    await page.getByLabel('Who is acting?').fill('Sam Lindqvist');
    await page.keyboard.press('Enter');
    await page.getByLabel('TCP', { exact: true }).check();
    await page.getByLabel('Port number').fill(String(device.port));
    await page.getByRole('button', { name: 'Listen', exact: true }).click();
    const use = page.getByRole('button', { name: 'Use this: Frames, 2 channels of i24, 10 samples a frame' });
    await use.waitFor();
    expect(await page.locator('.bytes').textContent()).toContain('a5 5a');
    expect(await seriousFindings(page)).toEqual([]);
    await use.focus();
    await page.keyboard.press('Enter');
    await page.getByText('Samples come', { exact: true }).waitFor();
    const values = page.getByRole('region', { name: 'Values of the last 2 s' });
    for (const name of ['left', 'right']) await values.getByRole('rowheader', { name }).waitFor();
    await page.getByText(/^\d{3,4}\.\d \u00b1/).waitFor();
    expect(await page.getByText('Nothing.', { exact: true }).count()).toBe(1);
    expect(device.callers).toBe(1);
    expect(await seriousFindings(page)).toEqual([]);
  });

  it('says so when the device falls silent, and goes on when it sends again', async () => {
    device.send(false);
    await page.getByText('Nothing has come from the device for 5 s.').waitFor();
    device.send(true);
    await page.getByText('Samples come', { exact: true }).waitFor();
  });

  it('lets go of the device, keeps the source, and forms a rig whose check is good', async () => {
    await page.getByLabel('Name', { exact: true }).first().fill('Boathouse plates');
    for (const n of [0, 1]) await page.getByLabel('Scale').nth(n).fill('0,1');
    await page.getByText('The description is complete.').waitFor();
    await page.getByRole('button', { name: 'Keep the source' }).click();
    await page.waitForURL('**/lab/rig');
    expect(await nobodyCalls()).toBe(true);
    await page.getByRole('button', { name: 'Set up a rig' }).click();
    await page.getByLabel('Name', { exact: true }).fill('Rack by the window');
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByRole('button', { name: 'Keep the rig' }).click();
    await page.getByRole('link', { name: 'Rack by the window' }).click();
    await page.getByRole('button', { name: 'Open the rig' }).click();
    const row = (title: string) => page.locator('.ready-rows li', { has: page.getByRole('heading', { name: title }) });
    for (const title of ['Device', 'Rate', 'Gaps and faults', 'Clock', 'Safe on disk'])
      await row(title).getByText('Good', { exact: true }).waitFor();
    expect(await row('Known masses').textContent()).toContain('No check with known masses has been made.');
    // Which channel reads what stands beside its zero.
    for (const name of ['left', 'right'])
      expect(await page.getByRole('row', { name: new RegExp(`^${name}`) }).textContent()).toMatch(/\d/);
    expect(await seriousFindings(page)).toEqual([]);
    // A device that an open rig holds is not opened a second time.
    await page.getByRole('link', { name: 'Change Boathouse plates' }).first().click();
    await page.getByRole('button', { name: 'Listen', exact: true }).click();
    await page.getByText('source-in-use').waitFor();
    await page.getByText('Close that rig, then listen again.').waitFor();
  });

  it('makes forces of raw signals by a matrix that is pasted, and says where it does not fit', async () => {
    await page.goto('/lab/rig');
    const rig = page.getByRole('link', { name: 'Rack by the window' });
    await rig.click();
    await page.getByRole('button', { name: 'Close the rig' }).click();
    await page.getByRole('button', { name: 'Open the rig' }).waitFor();
    await page.goto('/lab/rig/sources/new');
    await page.getByLabel('Name', { exact: true }).first().fill('Bridge plate');
    await page.getByLabel('TCP', { exact: true }).check();
    await page.getByLabel('Port number').fill(String(device.port));
    await page.getByRole('button', { name: 'Listen', exact: true }).click();
    await page.getByRole('button', { name: 'Use this: Frames, 2 channels of i24, 10 samples a frame' }).click();
    await page.getByRole('button', { name: 'Add a matrix' }).click();
    for (const name of ['left', 'right'])
      expect(await page.getByRole('checkbox', { name: new RegExp(`^${name}`) }).isChecked()).toBe(true);
    const matrix = page.getByLabel('Matrix, as the certificate prints it');
    const values = page.getByRole('region', { name: 'Values of the last 2 s' });
    // Signals are heard while the matrix does not fit yet.
    await matrix.fill('0.1');
    await values.getByRole('rowheader', { name: 'right' }).waitFor();
    await page.getByRole('button', { name: 'Keep the source' }).click();
    await page.locator('.matrix .field-error', { hasText: 'Line 1: There is 1 number for 2 signals.' }).waitFor();
    await matrix.fill('0,1; zero');
    await page.locator('.matrix .field-error', { hasText: 'Line 1, number 2: A number belongs here.' }).waitFor();
    await matrix.fill('0,1; 0,1');
    const understood = page.getByRole('region', { name: 'The matrix as it is understood' });
    expect(await understood.getByRole('row').allTextContents()).toEqual(['Makesleftright', 'Fz N0,10,1']);
    await page.getByText('The description is complete.').waitFor();
    const force = values.getByRole('row', { name: /^Fz N by the matrix/ });
    await force.waitFor();
    // The simulated rower weighs 71 kg and pulls with 1700 N more; the device sends tenths of a newton.
    const highest = Number((await force.getByRole('cell').last().textContent())?.replaceAll(/[^\d.]/gu, ''));
    expect(highest).toBeGreaterThan(400);
    expect(highest).toBeLessThan(3500);
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByRole('button', { name: 'Keep the source' }).click();
    await page.waitForURL('**/lab/rig');
    expect(await nobodyCalls()).toBe(true);
    const sources = await call(fetch as never, base(), liveRoutes.sources, { params: lab });
    const kept = sources.find(({ name }) => name === 'Bridge plate')?.description;
    expect(kept?.channels.map(({ axis }) => axis)).toEqual(['other', 'other']);
    expect(kept?.calibration).toEqual([
      {
        signals: ['left', 'right'],
        matrix: [[0.1, 0.1]],
        channels: [expect.objectContaining({ name: 'Fz', axis: 'z', unit: 'N' })],
      },
    ]);
    await page.getByRole('link', { name: 'Change Boathouse plates' }).first().click();
  });

  it('gives the description as a file and takes it back', async () => {
    const name = 'boathouse-plates.source.json';
    const save = async () => {
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: 'Save as a file' }).click(),
      ]);
      expect(download.suggestedFilename()).toBe(name);
      return readFileSync((await download.path()) as string, 'utf8');
    };
    saved = await save();
    const sources = await call(fetch as never, base(), liveRoutes.sources, { params: lab });
    const source = sources.find((one) => one.name === 'Boathouse plates');
    expect(JSON.parse(saved)).toEqual(source?.description);
    await page.goto('/lab/rig/sources/new');
    const file = (content: string) => ({ name, mimeType: 'application/json', buffer: Buffer.from(content) });
    await page.setInputFiles('input[type=file]', file('{"schema": "something else"}'));
    await page.getByText(/is not a source description/).waitFor();
    await page.setInputFiles('input[type=file]', file(saved));
    await page.getByText('The description is complete.').waitFor();
    expect(await save()).toBe(saved);
    expect(page.troubles).toEqual([]);
  });
});
