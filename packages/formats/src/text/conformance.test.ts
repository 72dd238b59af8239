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
hostile({
  ...written,
  small: writeText({ ...recording, sampleCount: 40, gaps: [{ start: 10, end: 27 }], channels }),
  rounds: 4_000,
  // A time cell may skip samples: a million values at most, and ten times the rows.
  extraValues: 1_100_000,
});
