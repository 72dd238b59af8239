import { conformance } from '../../test/conformance.ts';
import { smallFile } from '../../test/fixtures/small-c3d.ts';
import { hostile } from '../../test/hostile.ts';
import { c3dFormat } from './index.ts';
import { writeC3d } from './write.ts';

const subject = {
  id: 'c3d',
  fileName: 'pull.c3d',
  detect: c3dFormat.detect,
  read: (source: Parameters<typeof c3dFormat.read>[0]) => c3dFormat.read(source),
};

conformance({
  ...subject,
  write: c3dFormat.write!,
  holds: { events: true, facts: true, recordedAt: true, raw: true },
  cannotHold: { 'extreme values': 'numbers beyond the range of 32-bit floats are rounded, with a notice' },
});

const written = writeC3d({
  sampleRate: 1000,
  rateOrigin: 'declared',
  sampleCount: 3,
  channels: [{ name: 'left', unit: 'N', raw: Float64Array.of(700.1, 1 / 3, -0), scale: 1, offset: 0 }],
  platforms: [],
  gaps: [],
  events: [],
  facts: {},
  notices: [],
});
if (!written.ok) throw new Error(written.error.code);

hostile({ ...subject, small: smallFile() });
hostile({ ...subject, small: written.bytes });
