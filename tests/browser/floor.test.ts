import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seriousFindings } from './axe.ts';
import { bytesOf, type HeardPage, numbersIn } from './bytes.ts';
import { type PlayedLab, playedLab } from './played-lab.ts';
import { type WatchedPage, whyNot } from './station-under-test.ts';

const reason = whyNot();
/** Waits are long for a busy machine and return at once on a quiet one. */
const patience = 60_000;

const weight = 612;
const vole = { givenName: 'Vole', familyName: 'Dene', birthDate: '2012-05-01' };
const wren = { givenName: 'Wren', familyName: 'Alder', birthDate: '1999-04-01' };
const script = {
  people: [
    { weight, strength: 1100, pace: 'medium' as const },
    { weight: 860, strength: 1900 },
  ],
};

describe.skipIf(reason !== undefined)(`a guided turn of a minor${reason ? ` (${reason})` : ''}`, () => {
  let lab: PlayedLab;
  let floor: HeardPage;
  let wall: HeardPage;
  const phase = (name: string) => floor.locator(`.floor[data-phase="${name}"]`).waitFor();
  /**
   * As a person would: a press right after a phase began is no press, one that took longer than a second to arrive was refused, and
   * so is a count while the tension moves. Each is made again.
   */
  const pressUntil = async (from: string, key: string) => {
    for (let tries = 0; tries < 40; tries++) {
      await floor.waitForTimeout(700);
      if ((await floor.locator('.floor').getAttribute('data-phase')) !== from) return;
      await floor.keyboard.press(key);
    }
    throw new Error(`"${key}" did not end ${from}: ${await floor.locator('.floor').textContent()}`);
  };
  /** Presses until the wall says so, since a press that took longer than a second to arrive was refused. */
  const pressForWall = async (key: string, heading: string) => {
    for (let tries = 0; tries < 20; tries++) {
      await floor.keyboard.press(key);
      const there = wall.getByRole('heading', { name: heading }).waitFor({ state: 'attached', timeout: 5000 });
      if (await there.then(() => true).catch(() => false)) return;
    }
    throw new Error(`"${key}" did not bring "${heading}": ${await wall.locator('body').textContent()}`);
  };
  beforeAll(async () => {
    lab = await playedLab({ script, speed: 2, people: [vole, wren] });
    floor = await bytesOf(lab, { viewport: { width: 1180, height: 820 }, hasTouch: true });
    wall = await bytesOf(lab, { viewport: { width: 1920, height: 1080 }, colorScheme: 'dark' });
    for (const page of [floor, wall]) page.setDefaultTimeout(patience);
    await wall.goto('/lab/wall/A');
    await floor.goto('/lab/floor/A');
  }, 120_000);
  afterAll(() => lab?.close());

  it('goes from call to rest with the keys a clicker has', { timeout: 240_000 }, async () => {
    await floor.getByText('Next: Vole Dene').waitFor();
    await wall.getByRole('heading', { name: 'Vole' }).waitFor();
    await floor.keyboard.press('c');
    await floor.getByText('You hold the controls').waitFor();
    await pressUntil('waiting', 'PageDown');
    await phase('set-up');
    expect(await seriousFindings(floor)).toEqual([]);
    await pressUntil('set-up', 'PageDown');
    await phase('ready');
    await floor.getByText('Ready. Wait for the cue').first().waitFor();
    expect(await seriousFindings(wall)).toEqual([]);
    await pressUntil('ready', ' ');
    await phase('verdict');
    await floor.locator('.verdict-say').getByText('Good. That one counts').waitFor();
    expect(await seriousFindings(floor)).toEqual([]);
    await wall.getByText('Good. That one counts').first().waitFor();
    await pressUntil('verdict', 'PageDown');
    await phase('rest');
    expect(floor.troubles).toEqual([]);
    expect(wall.troubles).toEqual([]);
  });

  it('sends no weight to the Floor, and none to the Wall', () => {
    for (const page of [floor, wall]) {
      expect(page.heard.length).toBeGreaterThan(50);
      const mass = weight / 9.80665;
      for (const { path, value } of page.heard.flatMap(numbersIn)) {
        expect(Math.abs(value - weight), `${path} ${value}`).toBeGreaterThan(1);
        expect(Math.abs(value - mass), `${path} ${value}`).toBeGreaterThan(0.1);
      }
    }
    const told = floor.heard.filter((one) => (one as { type?: string }).type === 'envelope');
    const kinds = new Set(told.map((one) => (one as { forces: string }).forces));
    expect([...kinds].sort()).toEqual(['above', 'hidden', 'total']);
    // Before and after the turn the plates are empty; while somebody stands on them nothing is told as measured.
    for (const one of told as { forces: string; total: (number | null)[] }[])
      if (one.forces === 'total') for (const force of one.total) expect(Math.abs(force ?? 0)).toBeLessThan(100);
  });

  it('keeps the wall blank over a reload, and the Floor knows it', { timeout: 240_000 }, async () => {
    await pressForWall('.', 'Wall is blank');
    await wall.reload();
    await wall.getByRole('heading', { name: 'Wall is blank' }).waitFor({ state: 'attached' });
    await floor.reload();
    await floor.getByRole('button', { name: 'Show the wall' }).waitFor();
    // The turn again, however long this took: her name stands there from the verdict to the end of the rest.
    await pressForWall('b', 'Vole');
  });

  it('gives the controls to another device with one touch, and tells the first', { timeout: 240_000 }, async () => {
    const other: WatchedPage = await lab.page({ viewport: { width: 1440, height: 900 }, colorScheme: 'dark' });
    other.setDefaultTimeout(patience);
    await other.goto('/lab/floor/A');
    await other.getByText(/^Floor \w+ holds the controls$/).waitFor();
    await other.getByRole('button', { name: 'Take the controls' }).click();
    await other.getByText('You hold the controls').waitFor();
    await floor.getByText(/^Floor \w+ holds the controls$/).waitFor();
    expect(await floor.getByRole('button', { name: 'End turn' }).isDisabled()).toBe(true);
    // Whoever sees the danger may stop, with the controls or without.
    expect(await floor.getByRole('button', { name: 'Pain stop' }).isEnabled()).toBe(true);
    expect(await seriousFindings(other)).toEqual([]);
    await other.close();
  });
});

describe.skipIf(reason !== undefined)(`a hands-free turn${reason ? ` (${reason})` : ''}`, () => {
  /** The count goes by the samples: on slow plates a browser that is kept waiting still presses before its end. */
  const speed = 0.4;
  let lab: PlayedLab;
  let floor: HeardPage;
  beforeAll(async () => {
    lab = await playedLab({ script, speed, people: [wren], day: { handsFree: true } });
    floor = await bytesOf(lab, { viewport: { width: 1180, height: 820 } });
    floor.setDefaultTimeout(patience);
    await floor.goto('/lab/floor/A');
  }, 120_000);
  afterAll(() => lab?.close());

  it('is stopped before its cue by any key of a clicker', { timeout: 240_000 }, async () => {
    await floor.locator('.floor[data-phase="cue"]').waitFor();
    await floor.keyboard.press('.');
    await floor.locator('.floor[data-phase="set-up"]').waitFor();
    await floor.getByRole('switch', { name: 'Cues by themselves: off' }).waitFor();
    await floor.waitForTimeout(3500 / speed);
    const cues = floor.heard.filter((one) => (one as { type?: string }).type === 'cue') as { sound: string }[];
    expect(cues.some(({ sound }) => sound === 'three')).toBe(true);
    expect(cues.some(({ sound }) => sound === 'go')).toBe(false);
  });
});
