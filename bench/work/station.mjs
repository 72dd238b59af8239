// Starts the built station on a free port: node station.mjs DATA-FOLDER WEB-FOLDER. A line is answered with what the process has used, memory
// after a collection unless the line is "time";
// ends when its input ends.
import { createInterface } from 'node:readline';
import { startStation } from '@sthene/station';
import { say } from './say.mjs';

const station = await startStation({ port: 0, data: process.argv[2], webFolder: process.argv[3] });
say({ address: station.address });
createInterface({ input: process.stdin })
  .on('line', (line) => {
    if (line !== 'time') globalThis.gc?.();
    const { user, system } = process.cpuUsage();
    const { rss, heapUsed, arrayBuffers } = process.memoryUsage();
    say({ cpu: (user + system) / 1000, rss, heapUsed, arrayBuffers, handles: process.getActiveResourcesInfo().length });
  })
  .on('close', () => void station.close().then(() => process.exit(0)));
