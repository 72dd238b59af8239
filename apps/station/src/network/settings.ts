import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';

const networkSettings = z.object({ on: z.boolean(), port: z.number().int().min(0).max(65_535).optional() });
export type NetworkSettings = z.infer<typeof networkSettings>;

/** What was decided about the network. A file that cannot be read counts as "off": the closed door is the safe one. */
export function readSettings(folder: string): NetworkSettings {
  const path = join(folder, fileName);
  if (!existsSync(path)) return { on: false };
  try {
    return networkSettings.parse(JSON.parse(readFileSync(path, 'utf8')));
  } catch {
    return { on: false };
  }
}

export function writeSettings(folder: string, settings: NetworkSettings): void {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  const path = join(folder, fileName);
  writeFileSync(`${path}.new`, `${JSON.stringify(settings, undefined, 2)}\n`);
  renameSync(`${path}.new`, path);
}

const fileName = 'network.json';
