#!/usr/bin/env node
// The command is compiled TypeScript; this file only finds it, so that the link npm makes at install time always resolves.
import { existsSync } from 'node:fs';

const program = new URL('../dist/main.js', import.meta.url);
if (!existsSync(program)) {
  process.stderr.write('sthene is not built yet. Run "npm run build" in the repository once, then try again.\n');
  process.exit(1);
}
await import(program.href);
