import { describe, expect, it } from 'vitest';
import { channelsOf } from './channels.ts';
import { eventsOf, eventTimes } from './events.ts';
import { zeroTail } from './gaps.ts';
import type { C3dHeader } from './header.ts';
import { type C3dLayout, promisedFrames } from './layout.ts';
import { uniqueNames } from './names.ts';
import { Notices } from './notices.ts';
import type { Parameter } from './parameters.ts';
import { floats, integers, type ParameterRecord, single, strings } from './records.ts';

const stored = (entries: Record<string, ParameterRecord>): Map<string, Parameter> =>
  new Map(
    Object.entries(entries).map(([key, record]) => [
      key,
      { type: record.type, dimensions: record.dimensions, bytes: record.data, processor: 'intel' },
    ]),
  );

const layout: C3dLayout = {
  points: 0,
  channels: 1,
  samplesPerFrame: 1,
  frames: 1,
  float: false,
  unsigned: true,
  dataOffset: 1536,
  frameBytes: 2,
  analogOffset: 0,
  sampleRate: 1000,
  rateOrigin: 'declared',
  frameRate: 1000,
  firstFrame: 1,
};

const header = { firstFrame: 1, lastFrame: 10 } as C3dHeader;

describe('C3D details', () => {
  it('CD-06 scales an unsigned sample', () => {
    const parameters = stored({
      'ANALOG:OFFSET': integers('OFFSET', [0x8000], [1]),
      'ANALOG:SCALE': floats('SCALE', [0.5], [1]),
      'ANALOG:GEN_SCALE': floats('GEN_SCALE', [1], []),
    });
    const { channels } = channelsOf([Uint16Array.of(0x8064)], layout, parameters, new Notices());
    const { raw, offset, scale } = channels[0]!;
    expect((raw[0]! - offset) * scale).toBe(50);
  });

  it('takes an offset of 32768 as unsigned in float files too, when FORMAT says so', () => {
    const parameters = stored({ 'ANALOG:OFFSET': integers('OFFSET', [0x8000], [1]) });
    const offsetOf = (unsigned: boolean) =>
      channelsOf([Float32Array.of(32868)], { ...layout, float: true, unsigned }, parameters, new Notices()).channels[0]!
        .offset;
    expect(offsetOf(true)).toBe(32768);
    expect(offsetOf(false)).toBe(-32768);
  });

  it('CD-07 adds minutes and seconds, in both layouts seen', () => {
    expect(eventTimes([0, 7.85, 1, 2.5], [2, 2])).toEqual([7.85, 62.5]);
    expect(eventTimes([0, 1, 2, 7.85, 2.5, 0], [3, 2])).toEqual([7.85, 62.5, 120]);
  });

  it('CD-08 counts frames from TRIAL words', () => {
    const parameters = stored({
      'POINT:FRAMES': integers('FRAMES', [65535], []),
      'TRIAL:ACTUAL_START_FIELD': integers('ACTUAL_START_FIELD', [233, 0], [2]),
      'TRIAL:ACTUAL_END_FIELD': integers('ACTUAL_END_FIELD', [14053, 1], [2]),
    });
    expect(promisedFrames(header, parameters)).toBe(79357);
  });

  it('counts frames from a float, from LONG_FRAMES, and from the header when nothing else is there', () => {
    expect(promisedFrames(header, stored({ 'POINT:FRAMES': floats('FRAMES', [70000], []) }))).toBe(70000);
    const long = { 'POINT:FRAMES': integers('FRAMES', [65535], []), 'POINT:LONG_FRAMES': floats('L', [90000], []) };
    expect(promisedFrames(header, stored(long))).toBe(90000);
    expect(promisedFrames(header, stored({ 'POINT:FRAMES': integers('FRAMES', [40000], []) }))).toBe(40000);
    expect(promisedFrames(header, stored({}))).toBe(10);
  });

  it('shifts event times that count from the start of the capture, and drops none for its status', () => {
    const parameters = stored({
      'EVENT:USED': integers('USED', [2], []),
      'EVENT:TIMES': floats('TIMES', [0, 2, 0, 2.5], [2, 2]),
      'EVENT:LABELS': strings('LABELS', ['Strike', 'Off']),
      'EVENT:CONTEXTS': strings('CONTEXTS', ['Left', 'Left']),
    });
    const clock = { duration: 1, firstFrame: 151, frameRate: 100 };
    const notices = new Notices();
    expect(eventsOf([{ label: 'TOFF', time: 0.25 }], parameters, clock, notices)).toEqual([
      { label: 'TOFF', time: 0.25 },
      { label: 'Left Strike', time: 0.5 },
      { label: 'Left Off', time: 1 },
    ]);
    expect(notices.list.map((n) => n.code)).toEqual(['c3d-events-shifted']);
  });

  it('reads the converter range only where all samples keep it', () => {
    const signed = { ...layout, unsigned: false };
    const of = (raw: number[], offset: number, bits: number) =>
      channelsOf(
        [Int16Array.from(raw)],
        signed,
        stored({ 'ANALOG:BITS': integers('B', [bits], []), 'ANALOG:OFFSET': integers('O', [offset], [1]) }),
        new Notices(),
      ).channels[0]!.rawRange;
    expect(of([0, 5], 0, 12)).toEqual([-2048, 2047]);
    expect(of([0, 4000], 2048, 12)).toEqual([0, 4095]);
    expect(of([0, 4000], 0, 12)).toBeUndefined();
  });

  it('tells labels apart and keeps unknown units as text', () => {
    expect(uniqueNames(['a', '', 'a ', 'a', 'a (2)'])).toEqual(['a', 'channel 2', 'a (2)', 'a (3)', 'a (2) (2)']);
    const parameters = stored({ 'ANALOG:UNITS': single('UNITS', 'furl') });
    const { channels, unknownUnits } = channelsOf([new Int16Array(1)], layout, parameters, new Notices());
    expect(channels[0]!.unit).toBe('');
    expect(unknownUnits.get('channel 1')).toBe('furl');
  });

  it('sees a tail in which the converter had stopped', () => {
    const tail = [Int16Array.of(1, 2, 0, 0, 0), Int16Array.of(1, 0, 3, 0, 0)];
    expect(zeroTail(tail, 5, 2)).toBe(3);
    expect(zeroTail(tail, 5, 3)).toBeNull();
    expect(zeroTail([new Int16Array(5)], 5, 2)).toBeNull();
  });
});
