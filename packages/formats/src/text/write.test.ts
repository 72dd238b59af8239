import { describe, expect, it } from 'vitest';
import { channelOf, recordingOf } from '../../test/sample-recordings.ts';
import { bytesOf } from '../byte-source.ts';
import { guardText, headerCell, parseHeaderCell, unguardText } from './header-cell.ts';
import { readText } from './read.ts';
import { writeText } from './write.ts';

const text = (bytes: Uint8Array) => new TextDecoder().decode(bytes);

describe('our own text form', () => {
  const channels = [
    channelOf('left', 'N', Float64Array.of(400.5, Number.NaN, -0)),
    channelOf('right', 'N', Float64Array.of(390, 391.25, -12.5)),
    channelOf('bridge', 'V', Int16Array.of(1, 2, 3), 0.5, 1),
  ];
  const recording = recordingOf(channels, { gaps: [{ start: 1, end: 2 }] });

  it('is plain: names with units, seconds, shortest numbers, CRLF', () => {
    expect(text(writeText(recording))).toBe(
      'time_s,left_n,right_n,bridge [V]\r\n0,400.5,390,0\r\n0.001,,391.25,\r\n0.002,-0,-12.5,1\r\n',
    );
  });

  it('can be written for places with a decimal comma', () => {
    expect(text(writeText(recording, { decimal: ',', lineBreak: 'lf' }))).toBe(
      'time_s;left_n;right_n;bridge [V]\n0;400,5;390;0\n0,001;;391,25;\n0,002;-0;-12,5;1\n',
    );
  });

  it('says the rate only where the times do not', () => {
    const line = (sampleRate: number) => text(writeText({ ...recording, sampleRate })).split('\r\n')[0];
    expect([line(1000), line(600), line(450)]).toEqual(Array(3).fill('time_s,left_n,right_n,bridge [V]'));
    expect(line(1000.2)).toBe('sample_rate_hz,1000.2');
  });

  it('refuses a recording without channels', () => {
    expect(() => writeText(recordingOf([]))).toThrow(RangeError);
  });
});

describe('spreadsheets', () => {
  const bad = ['=1+1', '+1', '-1', '@a', '\ta', '\ra', '\na', "'=1", "''=1"];

  it('text that would run is guarded, and comes back as it was', () => {
    for (const word of bad) {
      expect(guardText(word)).toMatch(/^'/);
      expect(unguardText(guardText(word))).toBe(word);
    }
    for (const word of ['left', "'quoted'", 'a=b', ''])
      expect([guardText(word), unguardText(word)]).toEqual([word, word]);
  });

  it.each(['.', ','] as const)(
    'no written cell begins a formula, numbers stay numbers: decimal "%s"',
    async (decimal) => {
      const names = bad.map((name) => name.trim());
      const recording = recordingOf(
        [...new Set(names)].map((name) => channelOf(name, 'N', Float64Array.of(-5.5, 7, -1e-9))),
      );
      const written = writeText(recording, { decimal });
      const [header, first] = text(written).split('\r\n');
      const delimiter = decimal === ',' ? ';' : ',';
      for (const cell of header!.split(delimiter)) expect(cell.replace(/^"/, '')).not.toMatch(/^[=+\-@\t\r\n]/);
      expect(first!.split(delimiter).slice(1)).toEqual(
        recording.channels.map(() => (decimal === ',' ? '-5,5' : '-5.5')),
      );
      const back = await readText(bytesOf(written));
      expect(back.ok && back.recordings[0]!.recording.channels).toEqual(recording.channels);
    },
  );
});

describe('headings', () => {
  it('every written heading reads back as the same name and unit', () => {
    const names = [
      'left',
      'force_n',
      'time',
      'Fz [N]',
      'Fz (kN)',
      'N',
      'ms',
      'x/N',
      'a_b_mm',
      '[',
      ']',
      'x []',
      "'",
      'left, N',
    ];
    for (const name of names) {
      for (const unit of ['', 'N', 'kN', 's', 'V', '[lbf_av]', 'N.m', 'm/s2', 'N.s/kg', '%', 'mV/V', '{count}']) {
        const back = parseHeaderCell(headerCell(name, unit));
        expect([name, unit, back.name, back.unit]).toEqual([name, unit, name, unit]);
      }
    }
  });
});
