import { existsSync } from 'node:fs';
import { type Browser, chromium } from 'playwright-core';

const usual = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];

/** Path of an installed browser, or undefined; `CHROMIUM` in the environment names another one. */
export const findBrowser = (): string | undefined =>
  [process.env.CHROMIUM ?? '', ...usual].find((path) => path !== '' && existsSync(path));

/** Starts it without a window and without a graphics card, so that everything is painted by the processor. */
export const openBrowser = (executablePath: string): Promise<Browser> =>
  chromium.launch({
    executablePath,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
