import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { run } from '@sthene/cli';

/**
 * Writes what every command says with --help into the page of the command line, between its marks.
 *
 * Run: npx tsx --conditions=source tools/docs/command-line.ts
 */
export const commandPage = fileURLToPath(new URL('../../docs/reference/command-line.md', import.meta.url));

/** Every command in the order of `sthene --help`, the inner ones behind their own. */
export async function commands(): Promise<readonly string[]> {
  const names = listed(await helpOf([]));
  const all: string[] = [];
  for (const name of names) {
    all.push(name);
    for (const inner of listed(await helpOf([name]))) all.push(`${name} ${inner}`);
  }
  return all;
}

/** What `sthene COMMAND --help` prints, 80 columns wide. */
export async function helpOf(command: readonly string[]): Promise<string> {
  let out = '';
  const add = (text: string) => {
    out += text;
  };
  // The width of the terminal this runs in must not matter.
  const { isTTY } = process.stdout;
  Object.assign(process.stdout, { isTTY: false });
  try {
    await run([...command, '--help'], { out: add, err: add, lively: false });
  } finally {
    Object.assign(process.stdout, { isTTY });
  }
  return out.trim();
}

/** Names under "Commands:" of a help text. */
function listed(help: string): string[] {
  const [, after = ''] = help.split('\nCommands:\n');
  const [block = ''] = after.split('\n\n');
  return [...block.matchAll(/^ {2}(\S+)/gm)].map(([, name = '']) => name);
}

const begin = '<!-- written: help -->';
const end = '<!-- end -->';

/** The page with the help texts anew. */
export async function commandPageWith(text: string): Promise<string> {
  const from = text.indexOf(begin);
  const to = text.indexOf(end, from);
  if (from < 0 || to < 0) throw new Error('The page has no place for the help texts.');
  const sections: string[] = [];
  for (const command of ['', ...(await commands())]) {
    const help = await helpOf(command === '' ? [] : command.split(' '));
    sections.push(`### ${`sthene ${command}`.trim()}`, '', '```text', help, '```', '');
  }
  return `${text.slice(0, from + begin.length)}\n\n${sections.join('\n')}\n${text.slice(to)}`;
}

if (process.argv[1] === fileURLToPath(import.meta.url))
  writeFileSync(commandPage, await commandPageWith(readFileSync(commandPage, 'utf8')));
