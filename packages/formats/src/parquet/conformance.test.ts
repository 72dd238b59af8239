import { conformance } from '../../test/conformance.ts';
import { sampleRecording } from '../../test/fixtures/sample-recording.ts';
import { hostile } from '../../test/hostile.ts';
import { parquetFormat } from './index.ts';
import { writeParquet } from './write.ts';

const subject = {
  id: 'parquet',
  fileName: 'pull.parquet',
  detect: parquetFormat.detect,
  read: (source: Parameters<typeof parquetFormat.read>[0]) => parquetFormat.read(source),
};

conformance({
  ...subject,
  write: parquetFormat.write!,
  holds: { events: true, facts: true, recordedAt: true, raw: true },
});

hostile({ ...subject, small: writeParquet(sampleRecording()) });
