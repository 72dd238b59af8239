// A station that runs a hands-free day on virtual plates and is killed by its parent. Prints what it has confirmed.

import { virtualDescription } from '@sthene/capture';
import { startStation } from '../../src/index.ts';
import { LiveClient } from './live-client.ts';
import { lockstepPorts } from './lockstep.ts';
import { twoPulls } from './set-up.ts';

const [data, people, battery] = process.argv.slice(2) as [string, string, string | undefined];
const station = await startStation({
  port: 0,
  data,
  webFolder: `${data}/no-web`,
  ports: lockstepPorts(),
  headless: {
    sources: [
      virtualDescription('Virtual plates', battery === undefined ? 'fernwater-three' : 'fernwater-jumpers', 7, 12),
    ],
    handsFree: true,
    people,
    ...(battery === undefined
      ? { plan: twoPulls }
      : {
          tests: ['countermovement-jump', 'imtp'],
          battery: 'by-person' as const,
          plan: { efforts: [{ kind: 'maximal' as const }], rest: { minimum: 15, maximum: 600 } },
        }),
  },
});
const say = (words: object) => process.stdout.write(`${JSON.stringify(words)}\n`);
const viewer = await LiveClient.join(station.address, 'viewer', 'watch', (message) => {
  if (message.type === 'confirmed') say({ confirmed: message.samples, bytes: message.bytes });
  if (message.type === 'verdict')
    say({ trial: message.verdict.trial, code: message.verdict.person.code, of: message.verdict.turn });
  if (message.type === 'phase')
    say({ phase: message.floor.phase, turn: message.floor.turn?.person.code, test: message.floor.turn?.test });
  if (message.type === 'day' && message.day?.entries.every(({ state }) => state === 'done')) say({ done: true });
});
say({ ready: station.address });
for (const message of viewer.messages)
  if (message.type === 'snapshot') say({ alerts: message.alerts.map(({ code, words }) => ({ code, words })) });
