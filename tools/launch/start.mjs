// `npm start`: installs what is missing, builds what changed, starts the station and opens it.
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { checkNode, ensureBuild, ensureDependencies, root } from './machine.mjs';

checkNode();
const { compiled } = await ensureDependencies();
await Promise.all([compiled, ensureBuild()]);

const station = spawn(
  process.execPath,
  [join(root, 'apps/cli/dist/main.js'), 'station', '--open', ...process.argv.slice(2)],
  { stdio: 'inherit' },
);
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => station.kill(signal));
station.on('exit', (code, signal) => process.exit(code ?? (signal === 'SIGINT' ? 130 : 1)));
