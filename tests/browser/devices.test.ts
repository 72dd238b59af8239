import { createRequire } from 'node:module';
import { virtualDescription } from '@sthene/capture';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seriousFindings } from './axe.ts';
import { type StationUnderTest, stationUnderTest, type WatchedPage, whyNot } from './station-under-test.ts';

// Its types promise another export than its file has, as Node reads both.
const jsQR = createRequire(import.meta.url)('jsqr') as unknown as typeof import('jsqr').default;
const reason = whyNot();
const tabletSize = { viewport: { width: 1180, height: 820 }, hasTouch: true };

describe.skipIf(reason !== undefined)(`devices join by scanning a code${reason ? ` (${reason})` : ''}`, () => {
  let station: StationUnderTest;
  let page: WatchedPage;
  let tablet: WatchedPage;
  let wall: WatchedPage;
  let address = '';

  /** As the station's own screen asks. */
  const ask = (path: string, body: object) =>
    page.evaluate(
      async ([to, text]) => {
        const headers = { 'content-type': 'application/json' };
        const answer = await fetch(to as string, { method: 'POST', headers, body: text as string });
        if (!answer.ok) throw new Error(await answer.text());
        return (await answer.json()) as { id: string };
      },
      [path, JSON.stringify(body)],
    );

  // The browser knows nothing of the station's authority: what it makes of certificates is tested beside the station.
  const device = (size: object) => station.page({ ...size, baseURL: address, ignoreHTTPSErrors: true });
  const troublesOf = (one: WatchedPage) => one.troubles.filter((trouble) => !trouble.startsWith(`outside: ${address}`));

  beforeAll(async () => {
    station = await stationUnderTest();
    page = await station.page({ viewport: { width: 1440, height: 900 }, colorScheme: 'dark' });
    await page.addInitScript("localStorage.setItem('sthene.signed-as', 'Rowan')");
    await page.goto('/');
    await ask('/api/labs/lab', {});
    const by = 'Rowan';
    const description = JSON.parse(JSON.stringify(virtualDescription('Virtual plates', 'fernwater-three', 7, 1)));
    const source = await ask('/api/labs/lab/sources', { description, by });
    const draft = { name: 'Rig A', letter: 'A', shape: 'circle', sources: [source.id], notes: '', by };
    const rig = await ask('/api/labs/lab/rigs', draft);
    await ask(`/api/labs/lab/rigs/${rig.id}/open`, { by });
  });
  afterAll(() => station?.close());

  it('opens the station to the room, with a fingerprint to compare', async () => {
    await page.getByRole('link', { name: 'Devices' }).click();
    await page.getByText('Closed. Nobody but this machine').waitFor();
    expect(await page.getByRole('button', { name: 'Make a code' }).isDisabled()).toBe(true);
    await page.getByRole('button', { name: 'Open it' }).click();
    await page.getByText('Open, encrypted').waitFor({ timeout: 240_000 });
    address = (await page.locator('.check-line .address').first().textContent()) ?? '';
    expect(address).toMatch(/^https:\/\/[^/]+:\d+\/$/);
    const print = (await page.locator('.fingerprint').textContent()) ?? '';
    expect(print).toMatch(/^([0-9A-F]{2}:){31}[0-9A-F]{2}$/);
    expect(await seriousFindings(page)).toEqual([]);
  }, 90_000);

  it('pairs a tablet that scans the code, although the station is dark', async () => {
    await page.getByLabel('Name of the device').fill('Tablet by the rack');
    await page.getByRole('button', { name: 'Make a code' }).click();
    const shown = (await page.locator('.code-card .pair-code').textContent()) ?? '';
    const scanned = await decoded(page, await page.locator('.code-card .qr').screenshot());
    expect(scanned).toBe(`${address}pair#${shown.replace('-', '')}`);
    expect(await seriousFindings(page)).toEqual([]);

    tablet = await device(tabletSize);
    await tablet.goto('/lab/sessions');
    await tablet.getByRole('heading', { name: 'Join the station' }).waitFor();
    expect(await tablet.getByRole('navigation').count()).toBe(0);
    await tablet.goto(scanned);
    await tablet.getByText('was read from what you scanned').waitFor();
    expect(tablet.url()).toBe(`${address}pair`);
    expect(await seriousFindings(tablet)).toEqual([]);
    await tablet.getByRole('button', { name: 'Join', exact: true }).click();
    await tablet.getByRole('heading', { name: 'This device is paired as Tablet by the rack.' }).waitFor();
    await page.getByText('Tablet by the rack is paired.').waitFor();
  });

  it('lets the operator run the floor from it, and change no devices', async () => {
    await tablet.getByRole('link', { name: 'Go on' }).click();
    await tablet.waitForURL('**/lab/day');
    expect(await tablet.getByRole('link', { name: 'Devices' }).count()).toBe(0);
    await tablet.goto('/lab/floor/A');
    await tablet
      .getByRole('button', { name: /take the controls/i })
      .first()
      .click();
    await page.getByText('Connected').waitFor();
    const refused = await tablet.evaluate(async () => (await fetch('/api/labs/lab/devices')).json());
    expect(refused).toMatchObject({ code: 'role-not-enough' });
    expect(troublesOf(tablet)).toEqual([]);
  });

  it('says what is wrong with a code that was used', async () => {
    wall = await device({ viewport: { width: 390, height: 844 }, hasTouch: true });
    await wall.goto('/');
    await wall.getByRole('button', { name: 'Join', exact: true }).click();
    await wall.getByText('Type the ten signs').waitFor();
    await wall.getByLabel('Code', { exact: true }).fill('22222-22222');
    await wall.getByRole('button', { name: 'Join', exact: true }).click();
    await wall.getByText('This code is not one of the station.').waitFor();
    await page.getByText('1 wrong code was tried').waitFor();
    expect(await seriousFindings(wall)).toEqual([]);
  });

  it('brings a wall to its rig, which sees the wall alone', async () => {
    await page.getByRole('button', { name: 'Pair another device' }).click();
    await page.getByLabel('Name of the device').fill('Wall in the hall');
    await page.getByRole('radio', { name: /^Wall/ }).check();
    await page.getByRole('button', { name: 'Make a code' }).click();
    const shown = (await page.locator('.code-card .pair-code').textContent()) ?? '';
    await wall.getByLabel('Code', { exact: true }).fill(shown.toLowerCase());
    await wall.getByRole('button', { name: 'Join', exact: true }).click();
    await wall.waitForURL(/\/lab\/wall\/(?!choose)/);
    await wall.locator('main.wall').waitFor();
    await wall.goto('/lab/sessions');
    await wall.waitForURL(/\/lab\/wall\/(?!choose)/);
    const refused = await wall.evaluate(async () => (await fetch('/api/labs/lab/people')).json());
    expect(refused).toMatchObject({ code: 'role-not-enough' });
    expect(troublesOf(wall)).toEqual([]);
  });

  it('offers a viewer nothing it may not do, and says where it is done', async () => {
    await page.getByRole('button', { name: 'Pair another device' }).click();
    await page.getByLabel('Name of the device').fill('Laptop of the coach');
    await page.getByRole('radio', { name: /^Viewer/ }).check();
    await page.getByRole('button', { name: 'Make a code' }).click();
    const shown = (await page.locator('.code-card .pair-code').textContent()) ?? '';
    const laptop = await device({ viewport: { width: 1440, height: 900 } });
    await laptop.goto('/pair');
    await laptop.getByLabel('Code', { exact: true }).fill(shown);
    await laptop.getByRole('button', { name: 'Join', exact: true }).click();
    await laptop.getByRole('heading', { name: 'This device is paired as Laptop of the coach.' }).waitFor();
    const offered = async (path: string, says: string) => {
      await laptop.goto(path);
      await laptop.getByText(says).waitFor();
      expect(await laptop.locator('main .problem').count(), path).toBe(0);
      expect(await seriousFindings(laptop)).toEqual([]);
      return laptop.locator('main').getByRole('button').count();
    };
    expect(await offered('/lab/rig', 'Rigs and plates are set up on the station itself.')).toBe(0);
    expect(await laptop.getByRole('link', { name: 'Import' }).count()).toBe(0);
    await laptop.getByRole('link', { name: 'Rig A' }).click();
    await laptop.getByText('This device looks on. A rig is opened and closed').waitFor();
    expect(await laptop.locator('main').getByRole('button').count()).toBe(0);
    expect(await offered('/lab/rig/sources/new', 'Sources are described on the station itself')).toBe(0);
    expect(await offered('/lab/protocols', 'Protocols are made and changed on the station itself.')).toBe(0);
    expect(await offered('/lab/protocols/new?from=imtp', 'Protocols are made and changed')).toBe(0);
    expect(await offered('/lab/day', 'This device looks on. Days are planned and run')).toBe(0);
    expect(await offered('/lab/devices', 'Devices are looked after on the station itself.')).toBe(0);
    expect(await offered('/lab/camera/A', 'This device may not film.')).toBe(0);
    expect(troublesOf(laptop)).toEqual([]);
    await laptop.close();
  });

  it('takes a device off at once, and tells it', async () => {
    await page.getByRole('button', { name: 'Take off Wall in the hall' }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Take off' }).click();
    await page.getByText('Taken off: 1').waitFor();
    await wall.getByRole('heading', { name: 'This device was taken off' }).waitFor();
    expect(await seriousFindings(wall)).toEqual([]);
    expect(page.troubles).toEqual([]);
  });
});

/** What a picture of a code says, by a decoder that others wrote. */
async function decoded(page: WatchedPage, png: Buffer): Promise<string> {
  const { pixels, width, height } = await page.evaluate(async (base64) => {
    const scope = globalThis as unknown as {
      createImageBitmap(blob: Blob): Promise<{ width: number; height: number }>;
      OffscreenCanvas: new (
        width: number,
        height: number,
      ) => {
        getContext(kind: '2d'): {
          drawImage(image: unknown, x: number, y: number): void;
          getImageData(x: number, y: number, w: number, h: number): { data: Uint8ClampedArray };
        };
      };
    };
    const bytes = Uint8Array.from(atob(base64), (sign) => sign.charCodeAt(0));
    const image = await scope.createImageBitmap(new Blob([bytes]));
    const context = new scope.OffscreenCanvas(image.width, image.height).getContext('2d');
    context.drawImage(image, 0, 0);
    const { data } = context.getImageData(0, 0, image.width, image.height);
    return { pixels: Array.from(data), width: image.width, height: image.height };
  }, png.toString('base64'));
  return jsQR(new Uint8ClampedArray(pixels), width, height)?.data ?? '';
}
