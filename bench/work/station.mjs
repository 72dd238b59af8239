// Starts the built station on a free port: node station.mjs DATA-FOLDER WEB-FOLDER; ends when its input ends.
import { startStation } from '@sthene/station';
import { say } from './say.mjs';

const station = await startStation({ port: 0, data: process.argv[2], webFolder: process.argv[3] });
say({ address: station.address });
process.stdin.resume();
process.stdin.once('end', () => void station.close().then(() => process.exit(0)));
