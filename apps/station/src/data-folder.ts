import { homedir } from 'node:os';
import { join, resolve } from 'node:path';

/** The data folder: as given, as the environment says, or where this system keeps such things. */
export const dataFolder = (given: string | undefined): string =>
  resolve(given ?? process.env.STHENE_DATA ?? usualDataFolder());

function usualDataFolder(): string {
  if (process.platform === 'win32')
    return join(process.env.LOCALAPPDATA ?? join(homedir(), 'AppData', 'Local'), 'Sthene');
  if (process.platform === 'darwin') return join(homedir(), 'Library', 'Application Support', 'Sthene');
  return join(process.env.XDG_DATA_HOME ?? join(homedir(), '.local', 'share'), 'sthene');
}
