// The least a station can do in Node: reads the frames of a wire and hands as many bytes to each of its listeners as a station does, and
// looks at nothing. node bare-relay.mjs PORT BYTES. Says its port; then a line is answered
// with its processor time.
import { connect, createServer } from 'node:net';
import { createInterface } from 'node:readline';
import { say } from './say.mjs';

const [port, bytes] = process.argv.slice(2).map(Number);
const told = Buffer.alloc(bytes);
/** Milliseconds between two messages, as a curve at screen rate has them. */
const every = 18;
const listeners = new Set();
let last = 0;
const source = connect({ host: '127.0.0.1', port });
source.on('data', () => {
  const now = performance.now();
  if (now - last < every) return;
  last = now;
  for (const socket of listeners) socket.write(told);
});
const server = createServer((socket) => {
  listeners.add(socket);
  socket.setNoDelay(true);
  socket.on('error', () => {});
});
server.listen(0, '127.0.0.1', () => say({ port: server.address().port }));
createInterface({ input: process.stdin })
  .on('line', () => {
    const { user, system } = process.cpuUsage();
    say({ cpu: (user + system) / 1000, listeners: listeners.size });
  })
  .on('close', () => process.exit(0));
