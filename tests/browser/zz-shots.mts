import { simulatedDevice } from './simulated-device.ts';
import { stationUnderTest } from './station-under-test.ts';

const station = await stationUnderTest();
const device = await simulatedDevice();
const page = await station.page({ viewport: { width: 1180, height: 820 } });
await page.goto('/');
await page.evaluate(async () => {
  await fetch('/api/labs/lab', {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ name: 'Boathouse' }),
  });
});
await page.goto('/lab/rig/sources/new');
await page.waitForTimeout(1500);
const shot = (n: string) => page.screenshot({ path: `/tmp/shots/plates/${n}.png`, fullPage: true });
await shot('01-new');
await page.getByLabel('TCP', { exact: true }).check();
await page.getByLabel('Port number').fill(String(device.port));
await page.getByRole('button', { name: 'Listen', exact: true }).click();
await page.waitForTimeout(3500);
await shot('02-bytes');
const use = page.getByRole('button', { name: /^Use this/ }).first();
if (await use.count()) {
  await use.click();
  await page.waitForTimeout(3000);
}
await shot('03-used');
console.log(page.troubles);
await device.close();
await station.close();
