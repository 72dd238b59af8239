// What somebody would write in an afternoon: node live-relay.mjs RATE CHANNELS PORT. Reads the frames of the plates, sends every
// sample as JSON to every page, and serves a page that draws the total on a canvas. It keeps, checks and judges nothing.
import { readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { connect } from 'node:net';
import { WebSocketServer } from 'ws';
import { say } from './say.mjs';

const [rate, channels, port] = process.argv.slice(2).map(Number);
const count = rate / 200;
const length = 2 + 4 + 4 * channels * count + 4;
const page = readFileSync(new URL('relay-page.html', import.meta.url), 'utf8').replace('RATE', String(rate));

const http = createServer((_, answer) => answer.setHeader('content-type', 'text/html').end(page));
const sockets = new WebSocketServer({ server: http, perMessageDeflate: false });
await new Promise((done) => http.listen(0, '127.0.0.1', done));

let rest = Buffer.alloc(0);
const plates = connect(port, '127.0.0.1');
plates.setNoDelay(true);
plates.on('data', (bytes) => {
  rest = rest.length === 0 ? bytes : Buffer.concat([rest, bytes]);
  for (; rest.length >= length; rest = rest.subarray(length)) {
    const samples = [];
    for (let i = 0; i < count; i++) {
      const sample = [];
      for (let c = 0; c < channels; c++) sample.push(rest.readFloatLE(6 + 4 * (i * channels + c)));
      samples.push(sample);
    }
    const text = JSON.stringify({ first: rest.readUInt32LE(2) * count, samples });
    for (const client of sockets.clients) client.send(text);
  }
});
say({ address: `http://127.0.0.1:${http.address().port}` });
process.stdin.resume();
process.stdin.once('end', () => process.exit(0));
