// Three people on plates at the far end of a wire, at true speed: node live-people.mjs CHANNELS [JUMP]. They see the screens of the
// station and follow them, and pull, or jump in the way that is named. Lines: "follow URL" joins the station, "report" says the verdicts since the last report. Ends with its input.
import { createInterface } from 'node:readline';
import { virtualPlates, virtualRate, virtualScripts } from '@sthene/capture';
import WebSocket from 'ws';
import { say } from './say.mjs';
import { clockNow, startWire } from './wire.mjs';

const channels = Number(process.argv[2]);
const jump = process.argv[3];
const rate = 2 * virtualRate;
const none = () => 0n;
const plates = virtualPlates({
  id: 'far-end',
  script: { ...virtualScripts['fernwater-three'], pullSeconds: 3 },
  seed: 5,
  clock: { monotonic: none, wall: () => new Date().toISOString() },
});
/** Forces of the two plates, the newest at the end; `oldest` is the index of the first. */
let forces = [];
let oldest = 0;
await plates.start((packet) => {
  if (packet.kind !== 'samples') return;
  for (let i = 0; i < packet.count; i++) forces.push([packet.values[i], packet.values[packet.count + i]]);
});

const cells = channels / 2;
const wire = await startWire(rate, channels, (values, first, count) => {
  plates.run(Math.ceil((first + count) / 2) + 1);
  const base = Math.floor(first / 2);
  forces = forces.slice(base - oldest);
  oldest = base;
  for (let i = 0; i < count; i++) {
    const at = (first + i) / 2 - oldest;
    const [a, b] = [forces[Math.floor(at)], forces[Math.ceil(at)]];
    // Half way between two samples of the plates; each plate's force is spread over its cells.
    for (let c = 0; c < channels; c++)
      values[i * channels + c] = (a[c < cells ? 0 : 1] + b[c < cells ? 0 : 1]) / 2 / cells;
  }
});
say({ port: wire.port });

const turns = new Map();
let verdicts = [];
let judgedFrom;
let lastJudged;
function see(message) {
  if (message.type === 'verdict') {
    const { verdict } = message;
    // The frame whose last sample let the engine see the end.
    const sent = judgedFrom === undefined ? undefined : wire.sentAt(judgedFrom - 1);
    verdicts.push({ took: verdict.tookMs, fromWire: sent && clockNow() - sent, verdict: verdict.verdict });
    judgedFrom = undefined;
  }
  if (message.type === 'cue' && message.sound === 'go') plates.notice({ kind: 'mark', sample: 0, at: 0, label: 'cue' });
  if (message.type !== 'phase') return;
  const { phase, turn, since } = message.floor;
  // The same phase is told again when something else about it changes.
  if (phase === 'verdict' && since !== lastJudged) {
    judgedFrom = since;
    lastJudged = since;
  }
  if (turn !== undefined && !turns.has(turn.id)) turns.set(turn.id, turns.size + 1);
  const number = turns.get(turn?.id) ?? 0;
  plates.notice({
    kind: 'phase',
    sample: 0,
    phase,
    turn: number,
    trial: 1,
    ...(turn === undefined ? {} : { person: `guest-${(number - 1) % 3}` }),
    effort: { kind: 'maximal' },
    ...(jump === undefined ? {} : { jump }),
    because: 'released',
  });
}

createInterface({ input: process.stdin })
  .on('line', (line) => {
    const [word, url] = line.split(' ');
    if (word === 'follow') {
      const socket = new WebSocket(url, { perMessageDeflate: false });
      const device = { id: 'people-1', name: 'People' };
      socket.on('open', () => {
        socket.send(JSON.stringify({ type: 'hello', protocol: 1, lab: 'lab', role: 'viewer', device }));
        say({ following: true });
      });
      socket.on('message', (data) => {
        const message = JSON.parse(String(data));
        if (message.type === 'snapshot') for (const floor of message.floors) see({ type: 'phase', floor });
        see(message);
      });
    } else {
      say({ verdicts, sent: wire.samplesSent() });
      verdicts = [];
    }
  })
  .on('close', () => {
    wire.stop();
    process.exit(0);
  });
