// Twenty devices at the live interface of a station, in a process of their own: twelve read, five have fallen asleep, two come and
// go, one floods it with what it may not ask.
import { livePath } from '@sthene/contract';
import WebSocket from 'ws';

const [address = ''] = process.argv.slice(2);
const url = `${address.replace(/^http/, 'ws').replace(/\/$/, '')}${livePath}`;

function join(name: string): WebSocket {
  const socket = new WebSocket(url);
  const device = { id: name, name };
  socket.on('error', () => {});
  socket.on('open', () =>
    socket.send(JSON.stringify({ type: 'hello', protocol: 1, lab: 'lab', role: 'viewer', device })),
  );
  return socket;
}

let read = 0;
let last = 0;
for (let i = 0; i < 12; i++)
  join(`good-${i}`).on('message', (data) => {
    read++;
    last = Math.max(last, (data as Buffer).length);
  });
for (let i = 0; i < 5; i++) {
  const asleep = join(`asleep-${i}`);
  asleep.on('open', () => setTimeout(() => asleep.pause(), 200));
}
const coming = [join('coming-0'), join('coming-1')];
setInterval(() => {
  for (const i of [0, 1]) {
    coming[i]?.terminate();
    coming[i] = join(`coming-${i}`);
  }
}, 150);
let hostile = join('hostile');
setInterval(() => {
  if (hostile.readyState === WebSocket.CLOSED) hostile = join('hostile');
  if (hostile.readyState !== WebSocket.OPEN) return;
  for (let i = 0; i < 50; i++) hostile.send(i % 2 === 0 ? '{"type":"take-controls"}' : `{"type":"${'x'.repeat(2000)}`);
}, 100);
setInterval(() => process.stdout.write(`read ${read}\n`), 500);
