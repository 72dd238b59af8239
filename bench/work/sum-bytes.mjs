// The floor for reading text: every byte is looked at once and lines are counted: node sum-bytes.mjs FILE
import { open } from 'node:fs/promises';
import { say } from './say.mjs';

const handle = await open(process.argv[2], 'r');
const bytes = new Uint8Array(256 * 1024); // pieces as large as those of the scan
let lines = 0;
let sum = 0;
const began = performance.now();
for (;;) {
  const { bytesRead } = await handle.read(bytes, 0, bytes.length);
  if (bytesRead === 0) break;
  for (let i = 0; i < bytesRead; i++) {
    const byte = bytes[i];
    sum += byte;
    if (byte === 10) lines++;
  }
}
const work = performance.now() - began;
await handle.close();
say({ work, lines, sum, memory: process.resourceUsage().maxRSS * 1024 });
