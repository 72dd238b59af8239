import { describe, expect, it } from 'vitest';
import { bytesOf } from '../src/byte-source.ts';
import { detectFormats } from '../src/detect.ts';
import { distinct, formatOf, formats } from '../src/registry.ts';
import { distinctDetection } from './conformance.ts';

const subjects = formats.flatMap((format) => {
  const { write } = format;
  if (write === undefined) return [];
  return [
    {
      id: format.id,
      fileName: `x${format.extensions[0]}`,
      detect: format.detect.bind(format),
      read: (source: Parameters<typeof format.read>[0]) => format.read(source),
      write: write.bind(format),
    },
  ];
});

distinctDetection(subjects);

describe('the registry', () => {
  it('has one format an id and refuses a second one', () => {
    expect(new Set(formats.map((format) => format.id)).size).toBe(formats.length);
    expect(formatOf('text')?.id).toBe('text');
    expect(formatOf('nothing')).toBeUndefined();
    expect(() => distinct([...formats, formats[0]!])).toThrow(/listed twice/);
  });

  it('asks every format and ranks the answers', async () => {
    const csv = new TextEncoder().encode('time_s,left_n\n0,400\n0.001,401\n0.002,402\n');
    const answers = await detectFormats(bytesOf(csv, 'pull.csv'), formats);
    expect(answers).toHaveLength(formats.length);
    expect([answers[0]!.format.id, answers[0]!.detection.match]).toEqual(['text', 'yes']);
    for (const { detection } of answers) expect(detection.reason).not.toBe('');
  });

  it('puts the owner of the extension first among equals', async () => {
    const answer = (id: string, extension: string) => ({
      ...formats[0]!,
      id,
      extensions: [extension],
      detect: () => ({ match: 'maybe' as const, reason: 'It may be.' }),
    });
    const list = [
      answer('a', '.a'),
      answer('b', '.b'),
      { ...answer('c', '.c'), detect: () => ({ match: 'yes' as const, reason: 'It is.' }) },
    ];
    const order = async (name: string) =>
      (await detectFormats(bytesOf(new Uint8Array(3), name), list)).map(({ format }) => format.id);
    expect(await order('x.B')).toEqual(['c', 'b', 'a']);
    expect(await order('x')).toEqual(['c', 'a', 'b']);
  });
});
