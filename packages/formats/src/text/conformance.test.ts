import { conformance } from '../../test/conformance.ts';
import { hostile } from '../../test/hostile.ts';
import { sampleRecordings } from '../../test/sample-recordings.ts';
import { textFormat } from './format.ts';
import { writeText } from './write.ts';

const written = {
  id: textFormat.id,
  fileName: 'pull.csv',
  detect: textFormat.detect,
  read: (source: Parameters<typeof textFormat.read>[0]) => textFormat.read(source),
};

conformance({ ...written, write: async (recording) => writeText(recording) });
conformance({
  ...written,
  id: 'text with line feeds',
  write: async (recording) => writeText(recording, { lineBreak: 'lf' }),
});
conformance({
  ...written,
  id: 'text with decimal comma',
  write: async (recording) => writeText(recording, { decimal: ',' }),
});

const recording = sampleRecordings()['missing samples']!;
const channels = recording.channels.map((channel) => ({ ...channel, raw: channel.raw.slice(290, 330) }));
const small = writeText({ ...recording, sampleCount: 40, gaps: [{ start: 10, end: 27 }], channels });
// A time cell may skip samples: a million values at most, and ten times the rows.
const extraValues = 1_100_000;
hostile({ ...written, small, rounds: 1_500, extraValues });

// The same attack on a file with everything the own form does not have: preamble, units row, quotes, decimal comma, words, footer.
let foreign =
  '"Fernwater; boathouse"\r\nSampling rate: 200 Hz\r\n\r\nTime;"Left; plate";Phase;Right\r\n[ms];[kN];;[kN]\r\n';
for (let n = 0; n < 25; n++) foreign += `${n * 5};0,${400 + n};"still";${n % 7 === 3 ? 'NA' : `0,${390 - n}`}\r\n`;
foreign += '\r\nMean;0,412;;0,378\r\n';
hostile({ ...written, small: new TextEncoder().encode(foreign), rounds: 1_500, extraValues });
const units = Array.from(`\ufeff${foreign.slice(0, 700)}`, (c) => c.charCodeAt(0));
hostile({
  ...written,
  small: Uint8Array.from(units.flatMap((unit) => [unit & 255, unit >> 8])),
  rounds: 600,
  extraValues,
});
