// Looks on as so many devices: node live-spectators.mjs URL COUNT HELLO. Reads every message; HELLO is sent first unless empty.
// Says what came when its input ends.
import WebSocket from 'ws';
import { say } from './say.mjs';

const [url, count, hello] = process.argv.slice(2);
const seen = { messages: 0, bytes: 0, skipped: 0, gaps: 0 };
await Promise.all(
  Array.from({ length: Number(count) }, (_, i) => {
    const socket = new WebSocket(url, { perMessageDeflate: false });
    let last;
    socket.on('message', (data) => {
      const message = JSON.parse(String(data));
      seen.messages++;
      seen.bytes += data.length;
      if (message.type === 'behind') seen.skipped += message.skipped;
      else if (last !== undefined && message.sequence !== undefined && message.sequence !== last + 1) seen.gaps++;
      last = message.sequence;
    });
    return new Promise((done, failed) => {
      socket.on('error', failed);
      socket.on('open', () => {
        if (hello) {
          const device = { id: `spectator-${i}`, name: `Spectator ${i}` };
          socket.send(JSON.stringify({ ...JSON.parse(hello), device }));
        }
        done();
      });
    });
  }),
);
say({ ready: true });
process.stdin.resume();
process.stdin.once('end', () => {
  say(seen);
  process.exit(0);
});
