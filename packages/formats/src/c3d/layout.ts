import type { RateOrigin } from '@sthene/core';
import type { FormatError } from '../format-error.ts';
import { refusal } from './errors.ts';
import { blockSize, type C3dHeader } from './header.ts';
import type { Notices } from './notices.ts';
import { numbersOf, type Parameter, stringsOf } from './parameters.ts';

/** Where the analog samples lie in the file and how they are counted. */
export interface C3dLayout {
  readonly points: number;
  readonly channels: number;
  readonly samplesPerFrame: number;
  /** Frames that are really there. */
  readonly frames: number;
  readonly float: boolean;
  readonly unsigned: boolean;
  /** Byte offset of the first frame. */
  readonly dataOffset: number;
  readonly frameBytes: number;
  /** Byte offset of the analog block within a frame. */
  readonly analogOffset: number;
  readonly sampleRate: number;
  readonly rateOrigin: RateOrigin;
  readonly frameRate: number;
  readonly firstFrame: number;
}

type Parameters = ReadonlyMap<string, Parameter>;

/** A rate a recording can have; zero, negative, not-a-number and absurd values count as absent. */
const sensible = (rate: number | undefined): rate is number => rate !== undefined && rate >= 1e-3 && rate <= 1e7;

const unsignedOf = (parameters: Parameters, name: string): number | undefined =>
  numbersOf(parameters.get(name), { unsigned: true })[0];

/** Low word and high word of a frame number. */
function longFrame(words: readonly number[]): number | undefined {
  const [low, high] = words;
  return low === undefined ? undefined : low + 65536 * (high ?? 0);
}

/**
 * Frames the file promises. POINT:FRAMES is a 16-bit count (or a float); 65535 means "look further": POINT:LONG_FRAMES, then
 * the TRIAL start and end fields. Without FRAMES the header's first and last frame count.
 */
export function promisedFrames(header: C3dHeader, parameters: Parameters): number {
  const frames = Math.round(unsignedOf(parameters, 'POINT:FRAMES') ?? 0);
  if (frames > 0 && frames !== 65535) return frames;
  const long = Math.round(numbersOf(parameters.get('POINT:LONG_FRAMES'))[0] ?? 0);
  if (long > 0) return long;
  const start = longFrame(numbersOf(parameters.get('TRIAL:ACTUAL_START_FIELD'), { unsigned: true }));
  const end = longFrame(numbersOf(parameters.get('TRIAL:ACTUAL_END_FIELD'), { unsigned: true }));
  if (start !== undefined && end !== undefined && end >= start) return end - start + 1;
  return frames > 0 ? frames : Math.max(0, header.lastFrame - header.firstFrame + 1);
}

/** Samples of one channel in a 3D frame: the header's word if it fits the channel count, else the ratio of the rates. */
function samplesIn(
  header: C3dHeader,
  channels: number,
  frameRate: number | undefined,
  rate: number | undefined,
): number {
  if (header.samplesPerFrame > 0 && header.analogPerFrame === channels * header.samplesPerFrame) {
    return header.samplesPerFrame;
  }
  if (frameRate !== undefined && rate !== undefined) {
    const ratio = Math.round(rate / frameRate);
    if (ratio >= 1 && Math.abs(rate / frameRate - ratio) < 1e-3 * ratio) return ratio;
  }
  return header.samplesPerFrame > 0 ? header.samplesPerFrame : 1;
}

/**
 * Decides the layout from header, parameters and the file's real length. Parameters win over the header's copies; the
 * length wins over both.
 *
 * @param length bytes of the whole file
 * @param afterParameters byte offset just behind the parameter section, used when no data start is named
 * @param givenRate Hz, used only when the file names no rate
 */
export function layoutOf(
  header: C3dHeader,
  parameters: Parameters,
  length: number,
  afterParameters: number,
  givenRate: number | undefined,
  notices: Notices,
): { readonly ok: true; readonly layout: C3dLayout } | { readonly ok: false; readonly error: FormatError } {
  const points = unsignedOf(parameters, 'POINT:USED') ?? header.points;
  const fromHeader = header.samplesPerFrame > 0 ? Math.floor(header.analogPerFrame / header.samplesPerFrame) : 0;
  const channels = Math.round(unsignedOf(parameters, 'ANALOG:USED') ?? fromHeader);
  if (!(channels > 0)) {
    return refusal(
      'c3d-no-analog',
      'This C3D file holds no analog channel, only positions in space.',
      'Export the trial again with its force plates or load cells included.',
    );
  }
  const named = [numbersOf(parameters.get('POINT:RATE'))[0], header.frameRate].find(sensible);
  const analogRate = [numbersOf(parameters.get('ANALOG:RATE'))[0]].find(sensible);
  const samplesPerFrame = samplesIn(header, channels, named, analogRate);
  if (header.analogPerFrame > 0 && header.analogPerFrame !== channels * samplesPerFrame) {
    notices.add(
      'c3d-header-disagrees',
      `The header counts ${header.analogPerFrame} analog values a frame, the parameters ${channels} channels times ${samplesPerFrame}; the parameters were used.`,
    );
  }

  let sampleRate = analogRate;
  let rateOrigin: RateOrigin = 'declared';
  if (sampleRate === undefined && named !== undefined) {
    sampleRate = named * samplesPerFrame;
    notices.add('c3d-rate-derived', `ANALOG:RATE is missing; ${sampleRate} Hz follows from the frame rate.`);
  }
  if (sampleRate === undefined && sensible(givenRate)) {
    sampleRate = givenRate;
    rateOrigin = 'given';
  }
  if (sampleRate === undefined) {
    return refusal(
      'c3d-no-rate',
      'This C3D file names neither a frame rate nor an analog rate.',
      'Give the sampling rate in Hz when reading it.',
      { expected: 'ANALOG:RATE or POINT:RATE above zero' },
    );
  }
  const frameRate = named ?? sampleRate / samplesPerFrame;
  if (rateOrigin === 'declared' && Math.abs(frameRate * samplesPerFrame - sampleRate) > 1e-3 * sampleRate) {
    notices.add(
      'c3d-rates-disagree',
      `ANALOG:RATE is ${sampleRate} Hz but ${samplesPerFrame} samples a frame at ${frameRate} frames per second make ${frameRate * samplesPerFrame} Hz; ANALOG:RATE was used.`,
    );
  }

  const scale = numbersOf(parameters.get('POINT:SCALE'))[0] ?? header.scale;
  const float = scale < 0;
  const width = float ? 4 : 2;
  const frameBytes = width * (4 * points + channels * samplesPerFrame);
  const starts = [unsignedOf(parameters, 'POINT:DATA_START') ?? 0, header.dataStart].filter((block) => block > 1);
  const dataOffset =
    starts.map((block) => (block - 1) * blockSize).find((offset) => offset + frameBytes <= length) ??
    (starts[0] === undefined ? afterParameters : (starts[0] - 1) * blockSize);
  const available = Math.floor(Math.max(0, length - dataOffset) / frameBytes);
  const promised = promisedFrames(header, parameters);
  const frames = Math.min(promised, available);
  if (frames < 1) {
    return refusal(
      'c3d-no-data',
      `The file ends before its first frame: data should begin at byte ${dataOffset}, a frame needs ${frameBytes} bytes, the file has ${length}.`,
      'Copy the file again from its source; this copy is incomplete.',
      { expected: `${promised} frames`, found: `${available} frames`, at: { byte: Math.min(dataOffset, length) } },
    );
  }
  if (frames < promised) {
    notices.add(
      'c3d-truncated',
      `The file promises ${promised} frames but holds ${frames}; ${frames * samplesPerFrame} of ${promised * samplesPerFrame} samples were read.`,
    );
  }
  return {
    ok: true,
    layout: {
      points,
      channels,
      samplesPerFrame,
      frames,
      float,
      unsigned: stringsOf(parameters.get('ANALOG:FORMAT'))[0]?.toUpperCase() === 'UNSIGNED',
      dataOffset,
      frameBytes,
      analogOffset: width * 4 * points,
      sampleRate,
      rateOrigin,
      frameRate,
      firstFrame: header.firstFrame,
    },
  };
}
