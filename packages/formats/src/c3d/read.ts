import type { ByteSource, ReadResult } from '../format.ts';
import { readFully } from '../read-fully.ts';
import { channelsOf } from './channels.ts';
import { refusal } from './errors.ts';
import { eventsOf } from './events.ts';
import { factsOf } from './facts.ts';
import { missingSpans, zeroTail } from './gaps.ts';
import { blockSize, readHeader } from './header.ts';
import { layoutOf } from './layout.ts';
import { Notices } from './notices.ts';
import { numberReader, processorOf, viewOf } from './numbers.ts';
import { readOwnGroup } from './own-group.ts';
import { readParameters, stringsOf } from './parameters.ts';
import { platformsOf } from './platforms.ts';
import { restore } from './restore.ts';
import { readSamples } from './samples.ts';
import { unitCode } from './units.ts';

/** What a person may have to tell the reader. */
export interface C3dReadOptions {
  /** Hz; used only when the file names no rate. */
  readonly sampleRate?: number;
}

/** A section may claim 255 blocks of parameters; nothing larger is looked at. */
const mostParameterBlocks = 256;

/**
 * Reads the analog channels, force platforms and events of a C3D file. Positions in space are skipped.
 *
 * Reads in bounded pieces and allocates by the file's real length, never by a count it claims. A file that ends early gives
 * the frames that are there and says so.
 *
 * Errors: `c3d-empty`, `c3d-too-short`, `c3d-not-c3d`, `c3d-unknown-processor`, `c3d-no-analog`, `c3d-no-rate`,
 * `c3d-no-data`.
 *
 * Source: C3D User Guide (c3d.org), methods/jumps-and-plates.md sections 3.1 to 3.7.
 */
export async function readC3d(source: ByteSource, options: C3dReadOptions = {}): Promise<ReadResult> {
  const again = 'Copy the file again from its source.';
  if (source.length === 0) return refusal('c3d-empty', 'The file is empty (0 bytes).', again);
  const head = await readFully(source, 0, blockSize);
  if (head.length < blockSize) {
    return refusal('c3d-too-short', `A C3D file has at least 512 bytes; this one has ${head.length}.`, again, {
      expected: 'at least 512 bytes',
      found: `${head.length} bytes`,
      at: { byte: head.length },
    });
  }
  if (head[1] !== 0x50 || (head[0] as number) < 1) {
    return refusal(
      'c3d-not-c3d',
      'The second byte of a C3D file is 50 (hex); here it is not.',
      'Check the kind of file.',
      {
        expected: '50 (hex)',
        found: (head[1] as number).toString(16).padStart(2, '0'),
        at: { byte: 1 },
      },
    );
  }
  const parametersAt = ((head[0] as number) - 1) * blockSize;
  const start = await readFully(source, parametersAt, 4);
  if (start.length < 4) {
    return refusal(
      'c3d-too-short',
      `The parameter section should begin at byte ${parametersAt}, past the end.`,
      again,
      {
        found: `${source.length} bytes`,
        at: { byte: source.length },
      },
    );
  }
  const processor = processorOf(start[3] as number);
  if (processor === null) {
    return refusal(
      'c3d-unknown-processor',
      `The file was written by an unknown processor type (${start[3]}); its numbers cannot be read.`,
      'Check the kind of file; C3D knows types 84, 85 and 86.',
      { expected: '84, 85 or 86', found: String(start[3]), at: { byte: parametersAt + 3 } },
    );
  }
  const notices = new Notices();
  const header = readHeader(head, numberReader(viewOf(head), processor));
  const claimed = start[2] as number;
  // Some writers' sections run over their block count; the data section is then the only boundary.
  const toData = header.dataStart - (head[0] as number);
  const blocks = Math.min(Math.max(claimed, toData, 1), mostParameterBlocks);
  const section = readParameters(await readFully(source, parametersAt, blocks * blockSize), processor);
  const { parameters } = section;
  if (section.damaged > 0) {
    notices.add('c3d-parameters-damaged', `${section.damaged} damaged parameter records were left out.`);
  }

  const after = parametersAt + Math.max(claimed, 1) * blockSize;
  const laid = layoutOf(header, parameters, source.length, after, options.sampleRate, notices);
  if (!laid.ok) return laid;
  const { layout } = laid;
  const raw = await readSamples(source, layout, processor);
  const sampleCount = raw[0]?.length ?? 0;
  if (sampleCount === 0) {
    return refusal('c3d-no-data', 'The file gave no samples when they were read.', again, {
      at: { byte: layout.dataOffset },
    });
  }
  const tail = layout.float ? null : zeroTail(raw, sampleCount, layout.sampleRate / 2);
  if (tail !== null) {
    notices.add('c3d-zero-tail', `From sample ${tail} on every channel is stored as 0: the converter had stopped.`);
  }
  const { channels, unknownUnits } = channelsOf(raw, layout, parameters, notices);

  const own = readOwnGroup(parameters);
  if (own !== null) {
    const restored = own === 'unfit' ? null : restore(raw, channels, own, layout, notices);
    if (restored !== null) return { ok: true, recordings: [{ label: '', recording: restored }] };
    notices.add(
      'c3d-own-group-stale',
      'The exact description in group STHENE does not fit the file any more; it was not used.',
    );
  }

  const lengthUnit = unitCode(stringsOf(parameters.get('POINT:UNITS'))[0] ?? '') || 'mm';
  const { platforms, baselines } = platformsOf(channels, layout, parameters, lengthUnit, notices);
  const clock = {
    duration: sampleCount / layout.sampleRate,
    firstFrame: layout.firstFrame,
    frameRate: layout.frameRate,
  };
  const facts = factsOf(parameters);
  for (const [name, text] of unknownUnits) facts[`unit of ${name}`] = text;
  platforms.forEach((platform, i) => {
    if (baselines[i] !== 0) facts[`${platform.name}: baseline subtracted, N`] = String(baselines[i]);
  });
  return {
    ok: true,
    recordings: [
      {
        label: '',
        recording: {
          sampleRate: layout.sampleRate,
          rateOrigin: layout.rateOrigin,
          sampleCount,
          channels,
          platforms,
          gaps: missingSpans(raw, sampleCount),
          events: eventsOf(header.events, parameters, clock, notices),
          facts,
          notices: notices.list,
        },
      },
    ],
  };
}
