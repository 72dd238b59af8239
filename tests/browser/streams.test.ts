import { call, routes } from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { StreamSender } from '../streaming/sender.ts';
import { seriousFindings } from './axe.ts';
import { type StationUnderTest, stationUnderTest, type WatchedPage, whyNot } from './station-under-test.ts';

const reason = whyNot();
/** Where every sender hears queries. */
const queryPort = 16_571;

describe.skipIf(reason !== undefined)(`a stream of another program${reason ? ` (${reason})` : ''}`, () => {
  let station: StationUnderTest;
  let sender: StreamSender;
  let page: WatchedPage;
  let timer: NodeJS.Timeout;
  // Others on this network may send as well; ours has a name nobody else has.
  const name = `Fernwater plates ${process.pid}`;
  beforeAll(async () => {
    station = await stationUnderTest();
    sender = new StreamSender({ queryPort, name, sourceId: `FW-${process.pid}`, labels: ['Left Fz', 'Right Fz'] });
    await sender.start();
    const began = performance.now();
    const clock = sender.clock;
    let n = 0;
    timer = setInterval(() => {
      const due = Math.floor((performance.now() - began) / 20) * 20;
      for (; n < due; n += 20)
        sender.send(
          Array.from({ length: 20 }, (_, i) => ({
            ...(i === 0 ? { time: clock + n / 1000 } : {}),
            values: [400 + 5 * Math.sin((n + i) / 50), 390],
          })),
        );
    }, 20);
    const base = station.address.replace(/\/$/, '');
    await call(fetch as never, base, routes.createLab, { params: { lab: 'lab' }, body: { name: 'Boathouse' } });
    page = await station.page({ viewport: { width: 1180, height: 820 } });
  });
  afterAll(async () => {
    clearInterval(timer);
    await station?.close();
    await sender?.stop();
  });

  it('is found, chosen with its rate and channels, listened to, and kept', async () => {
    await page.goto('/lab/rig/sources/new');
    await page.getByLabel('Who is acting?').fill('Sam Lindqvist');
    await page.keyboard.press('Enter');
    await page.getByLabel('Stream of another program', { exact: true }).check();
    await page.getByRole('button', { name: 'Look for streams' }).click();
    const found = page.getByRole('button', { name, exact: true });
    await found.waitFor();
    expect(await seriousFindings(page)).toEqual([]);
    await found.focus();
    await page.keyboard.press('Enter');
    expect(await found.getAttribute('aria-pressed')).toBe('true');
    expect(await page.getByLabel('Source id').inputValue()).toBe(`FW-${process.pid}`);
    await page.getByText('Left Fz, Right Fz. Named otherwise it is refused.').waitFor();
    await page.getByText('The description is complete.').waitFor();
    await page.getByRole('button', { name: 'Listen', exact: true }).click();
    await page.getByText('Samples come', { exact: true }).waitFor();
    const values = page.getByRole('region', { name: 'Values of the last 2 s' });
    for (const label of ['Left Fz', 'Right Fz']) await values.getByRole('rowheader', { name: label }).waitFor();
    await page.getByRole('button', { name: 'Keep the source' }).click();
    await page.waitForURL('**/lab/rig');
  });

  it('becomes a rig, and the rig offers its forces only where somebody ticks it', async () => {
    await page.getByRole('button', { name: 'Set up a rig' }).click();
    await page.getByLabel('Name', { exact: true }).fill('Rack by the window');
    await page.getByRole('button', { name: 'Keep the rig' }).click();
    await page.getByRole('link', { name: 'Rack by the window' }).click();
    await page.getByRole('button', { name: 'Open the rig' }).click();
    await page.getByRole('button', { name: 'Close the rig' }).waitFor();
    const offer = page.getByLabel('Offer forces and marks as streams');
    expect(await offer.isChecked()).toBe(false);
    await offer.click();
    await page.getByText('Rack by the window marks: mark; 0 programs read it').waitFor();
    await page.getByText(/^Rack by the window: total, left, right at 1000.Hz; 0 programs read it$/).waitFor();
    expect(await page.getByLabel('Other machines may read them').isChecked()).toBe(false);
    expect(await page.getByLabel('Marks tell the code of who is on the rig').isChecked()).toBe(false);
    expect(await seriousFindings(page)).toEqual([]);
    expect(page.troubles).toEqual([]);
  });
});
