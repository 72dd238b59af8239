import { conformance } from '../../test/conformance.ts';
import { sampleRecording } from '../../test/fixtures/sample-recording.ts';
import { hostile } from '../../test/hostile.ts';
import { dataPackageFormat } from './index.ts';

const subject = {
  id: 'data-package',
  fileName: 'pulls.zip',
  detect: dataPackageFormat.detect,
  read: (source: Parameters<typeof dataPackageFormat.read>[0]) => dataPackageFormat.read(source),
};

conformance({
  ...subject,
  write: dataPackageFormat.write!,
  holds: { events: true, facts: true, recordedAt: true },
});

hostile({ ...subject, small: await dataPackageFormat.write!(sampleRecording()) });
