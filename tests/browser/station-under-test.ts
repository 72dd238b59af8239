import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { type Browser, type BrowserContext, type BrowserContextOptions, chromium, type Page } from 'playwright-core';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** The browser's program: STHENE_TEST_BROWSER, else the usual place of Chromium. */
export const browserProgram = process.env.STHENE_TEST_BROWSER ?? '/usr/bin/chromium';

/** Folder of the built web app: STHENE_TEST_WEB, else the build's own. */
export const webFolder = process.env.STHENE_TEST_WEB ?? join(root, 'apps/web/dist');

const stationProgram = join(root, 'apps/station/dist/index.js');

/** Why the browser tests cannot run here, or undefined. */
export function whyNot(): string | undefined {
  if (!existsSync(browserProgram)) return `there is no browser at ${browserProgram}; set STHENE_TEST_BROWSER`;
  if (!existsSync(stationProgram) || !existsSync(join(webFolder, 'index.html')))
    return 'station or web app is not built; run "npm run build" first';
  return undefined;
}

/** A running station with a data folder of its own, and browser pages beside it. */
export interface StationUnderTest {
  /** Ends with a slash. */
  readonly address: string;
  readonly dataFolder: string;
  /** A page in a fresh profile. Requests that would leave this machine, page errors and policy violations are collected. */
  page(options?: BrowserContextOptions): Promise<WatchedPage>;
  /** Writes a line to the station's standard input, for a program that reads it. */
  tell(line: string): void;
  close(): Promise<void>;
}

export interface WatchedPage extends Page {
  /** Errors of the page and its console, policy violations, and addresses outside the station. Should stay empty. */
  readonly troubles: readonly string[];
}

/**
 * Starts the built station on any free port with an empty data folder. The browser is the same for all test files of a process, and
 * started by the first page; what was opened there goes with the station.
 *
 * @param program what the station's process runs
 * @param browserArguments added to the usual ones, as those of a fake camera
 */
export async function stationUnderTest(
  program = usualProgram,
  browserArguments: readonly string[] = [],
  data = mkdtempSync(join(tmpdir(), 'sthene-browser-')),
): Promise<StationUnderTest> {
  const station = await startBuilt(data, program);
  const contexts: BrowserContext[] = [];
  return {
    address: station.address,
    dataFolder: data,
    page: async (options) => {
      const browser = await browserWith(browserArguments);
      const context = await browser.newContext({ baseURL: station.address, ...options });
      contexts.push(context);
      return watchedPage(context, station.address);
    },
    tell: station.tell,
    close: async () => {
      for (const context of contexts) await context.close();
      await station.close();
      rmSync(data, { recursive: true, force: true });
    },
  };
}

/** What the station's process runs: the built package, told where everything is; it says its address on the first line. */
const usualProgram = `
  const { startStation } = await import(process.env.STATION);
  const station = await startStation({ port: 0, data: process.env.DATA, webFolder: process.env.WEB });
  console.log(station.address);
  await station.stopped(['SIGTERM']);
`;

/** The station in a process of its own: what is tested is what was built, whatever the test runner makes of sources. */
async function startBuilt(
  data: string,
  program: string,
): Promise<{ readonly address: string; tell(line: string): void; close(): Promise<void> }> {
  const child = spawn(process.execPath, ['--input-type=module', '-e', program], {
    env: { ...process.env, STATION: pathToFileURL(stationProgram).href, DATA: data, WEB: webFolder },
    stdio: ['pipe', 'pipe', 'pipe'],
  });
  let said = '';
  let complained = '';
  child.stderr.on('data', (piece: Buffer) => {
    complained += piece.toString();
  });
  const ended = once(child, 'exit');
  const address = await new Promise<string>((done, failed) => {
    child.stdout.on('data', (piece: Buffer) => {
      said += piece.toString();
      const [first, rest] = said.split('\n');
      if (first !== undefined && rest !== undefined) done(first);
    });
    ended.then(() => failed(new Error(`the station ended before it began: ${complained}`)), failed);
  });
  return {
    address,
    tell: (line) => void child.stdin.write(`${line}\n`),
    close: async () => {
      child.kill('SIGTERM');
      const late = setTimeout(() => child.kill('SIGKILL'), 60_000);
      const [, signal] = await ended;
      clearTimeout(late);
      if (signal === 'SIGKILL') throw new Error(`The station did not end within a minute. ${complained}`);
    },
  };
}

/** Browsers that run, by the arguments added to the usual ones; they end with this process. */
const browsers = new Map<string, Promise<Browser>>();

function browserWith(more: readonly string[]): Promise<Browser> {
  const key = more.join(' ');
  let browser = browsers.get(key);
  if (browser === undefined) {
    browser = startBrowser(more);
    browsers.set(key, browser);
    const forget = () => browsers.delete(key);
    // One that has crashed fails what it was used for, and is not handed out again.
    browser.then((one) => one.once('disconnected', forget), forget);
  }
  return browser;
}

const startBrowser = (more: readonly string[]): Promise<Browser> =>
  chromium.launch({
    executablePath: browserProgram,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      ...more,
    ],
  });

async function watchedPage(context: BrowserContext, address: string): Promise<WatchedPage> {
  const page = await context.newPage();
  const troubles: string[] = [];
  page.on('pageerror', (error) => troubles.push(`page error: ${error.message}`));
  page.on('console', (message) => {
    // a refusal of the station is part of what is tested; the browser reports it as a failed resource
    if (message.type() === 'error' && !message.text().startsWith('Failed to load resource'))
      troubles.push(`console: ${message.text()}`);
  });
  page.on('request', (request) => {
    const url = request.url();
    if (!url.startsWith(address) && !url.startsWith('blob:') && !url.startsWith('data:'))
      troubles.push(`outside: ${url}`);
  });
  return Object.assign(page, { troubles });
}
