import { spawn } from 'node:child_process';

/** Asks the system to open an address. Where there is no browser (a server, a test) nothing happens: the address was printed. */
export function openInBrowser(address: string): void {
  if (process.env.CI || process.env.STHENE_NO_BROWSER) return;
  const [program, args] =
    process.platform === 'darwin'
      ? ['open', [address]]
      : process.platform === 'win32'
        ? ['cmd', ['/c', 'start', '', address]]
        : ['xdg-open', [address]];
  const child = spawn(program as string, args as string[], { stdio: 'ignore', detached: true });
  child.on('error', () => {});
  child.unref();
}
