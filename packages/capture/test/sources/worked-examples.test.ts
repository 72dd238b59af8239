import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Packet } from '../../src/packets/packet.ts';
import { byteSource } from '../../src/sources/byte-source.ts';
import { parseSourceDescription } from '../../src/sources/description/index.ts';
import type { Link } from '../../src/sources/link.ts';
import { linkTroubles } from '../../src/sources/link-trouble.ts';
import { machineClock } from './collect.ts';

const docs = (name: string) => readFileSync(new URL(`../../../../docs/${name}`, import.meta.url), 'utf8');
const page = docs('reference/source-description.md');

/** A fenced block of the example's section. */
const block = (example: string, info: string): string => {
  const section = page.slice(page.indexOf(`### ${example}\n`));
  return new RegExp(`\`\`\`${info}\n([\\s\\S]*?)\`\`\``, 'u').exec(section)?.[1] ?? '';
};

/** Rows of all channels in their unit; a gap gives as many undefined ones. */
async function rowsOf(example: string, bytes: Uint8Array): Promise<(number[] | undefined)[]> {
  const parsed = parseSourceDescription(JSON.parse(docs(`examples/${example}.source.json`)));
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  const { description } = parsed;
  const packets: Packet[] = [];
  const link: Link = {
    async start(events) {
      events.opened();
      // In pieces of seven bytes, so that none ends where a line or frame does.
      for (let at = 0; at < bytes.length; at += 7) events.bytes(bytes.subarray(at, at + 7));
    },
    async stop() {},
  };
  const source = byteSource(
    description,
    { id: 'x', clock: machineClock },
    { link, reorderWindow: 0, startsWhole: true },
  );
  await source.start((packet) => packets.push(packet));
  await source.stop();
  expect(packets.filter(({ kind }) => kind === 'fault')).toEqual([]);
  const channels = packets.flatMap((packet) => (packet.kind === 'header' ? packet.channels : []));
  return packets.flatMap((packet): (number[] | undefined)[] => {
    if (packet.kind === 'gap') return new Array(packet.count).fill(undefined);
    if (packet.kind !== 'samples') return [];
    return Array.from({ length: packet.count }, (_, i) =>
      channels.map(({ scale, offset }, c) => ((packet.values[c * packet.count + i] as number) - offset) * scale),
    );
  });
}

const expected = (example: string) =>
  block(example, 'text values')
    .trim()
    .split('\n')
    .map((line) => (line === 'missing' ? undefined : line.split(' ').map(Number)));

describe('the worked examples of the reference page', () => {
  it.each([
    ['text-line-device', Buffer.from(block('text-line-device', 'text bytes').replaceAll('\n', '\r\n'))],
    ['matrix-plate', Buffer.from(block('matrix-plate', 'text bytes').replaceAll('\n', '\r\n'))],
    ['binary-frame-device', Buffer.from(block('binary-frame-device', 'hex bytes').replaceAll(/\s/gu, ''), 'hex')],
  ])('%s gives the values that stand there', async (example, bytes) => {
    expect(bytes.length).toBeGreaterThan(50);
    const rows = await rowsOf(example, bytes);
    const wanted = expected(example);
    expect(rows).toHaveLength(wanted.length);
    rows.forEach((row, i) => {
      expect(row === undefined, `row ${i}`).toBe(wanted[i] === undefined);
      row?.forEach((value, c) => {
        expect(value).toBeCloseTo((wanted[i] as number[])[c] as number, 9);
      });
    });
  });

  it('the page lists every code of a link, as the program words it', () => {
    for (const [code, { means, next }] of Object.entries(linkTroubles))
      expect(page).toContain(`| \`${code}\` | ${means} | ${next} |`);
    const listed = [...page.matchAll(/^\| `(source-[a-z-]+)` \| .* \| .* \|$/gmu)].map(([, code]) => code);
    expect(listed).toEqual(Object.keys(linkTroubles));
  });
});
