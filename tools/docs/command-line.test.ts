import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { exitCodes } from '../../apps/cli/src/terminal/exit-codes.ts';
import { commandPage, commandPageWith, commands } from './command-line.ts';

const text = readFileSync(commandPage, 'utf8');

describe('the page of the command line', () => {
  it('says what every command says with --help', async () => {
    expect(text, 'Run: npx tsx --conditions=source tools/docs/command-line.ts').toBe(await commandPageWith(text));
  });

  it('has every command in its first table, and every exit code', async () => {
    const names = await commands();
    expect(names).toEqual(
      expect.arrayContaining(['analyze', 'station', 'sessions', 'trials', 'export', 'methods list']),
    );
    const [table = ''] = text.split('\n## ');
    for (const name of names.filter((one) => !one.includes(' ')))
      expect(table).toMatch(new RegExp(`^\\| .*\`${name}\\b`, 'm'));
    for (const code of Object.values(exitCodes)) expect(text).toContain(`| ${code} |`);
  });
});
