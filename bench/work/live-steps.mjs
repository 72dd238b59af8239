// Plates whose force steps between two levels at random: node live-steps.mjs RATE CHANNELS. Ask with a line: "clock" for this
// process's clock, "steps" for the times at which the frames with a step were handed to the socket. Ends with its input.
import { createInterface } from 'node:readline';
import { say } from './say.mjs';
import { clockNow, startWire } from './wire.mjs';

const [rate, channels] = process.argv.slice(2).map(Number);
const levels = [200, 2000];
// On the grid of frames, so that one frame is all of one level.
const grid = rate / 200;
let up = 0;
let next = 2 * rate;
let steps = [];

const wire = await startWire(rate, channels, (values, first, count) => {
  if (first >= next) {
    up = 1 - up;
    steps.push({ at: clockNow(), up: up === 1 });
    next = first + grid * Math.round((0.3 + 0.4 * Math.random()) * 200);
  }
  for (let i = 0; i < count * channels; i++) values[i] = levels[up] / channels + Math.random() - 0.5;
});
say({ port: wire.port });
createInterface({ input: process.stdin })
  .on('line', (line) => {
    if (line === 'clock') say({ clock: clockNow() });
    else {
      say({ steps });
      steps = [];
    }
  })
  .on('close', () => {
    wire.stop();
    process.exit(0);
  });
