// Scans a text file of any size in constant memory: node scan-text.mjs FILE
import { open } from 'node:fs/promises';
import { scanText } from '@sthene/formats';
import { say } from './say.mjs';

const path = process.argv[2];
const handle = await open(path, 'r');
const { size } = await handle.stat();
const source = {
  name: path,
  length: size,
  async read(offset, length) {
    const bytes = new Uint8Array(Math.min(length, size - offset));
    const { bytesRead } = await handle.read(bytes, 0, bytes.length, offset);
    return bytes.subarray(0, bytesRead);
  },
};
let rows = 0;
let sum = 0;
const began = performance.now();
const result = await scanText(source, {}, (block) => {
  rows += block.rows;
  const last = block.columns[block.columns.length - 1];
  for (let i = 0; i < last.length; i++) sum += last[i];
});
const work = performance.now() - began;
await handle.close();
if (!result.ok) throw new Error(result.error.message);
say({ work, rows, sum, columns: result.summary.columns.length, memory: process.resourceUsage().maxRSS * 1024 });
