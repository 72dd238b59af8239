import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bestOffset, clockOffsetOf } from './clock-offset.ts';
import {
  HeadGatherer,
  longestHead,
  readFeedAnswer,
  readFeedRequest,
  writeFeedAnswer,
  writeFeedRefusal,
  writeFeedRequest,
} from './feed-head.ts';
import { meetsFilter } from './filter.ts';
import { isQuery, readAnswer, readQuery, writeAnswer, writeQuery } from './query.ts';
import { streamFaults } from './stream-fault.ts';
import { readStreamInfo, type StreamInfo, writeStreamInfo } from './stream-info.ts';
import { testPattern } from './test-pattern.ts';
import { readTimeAnswer, readTimeProbe, writeTimeAnswer, writeTimeProbe } from './time-probe.ts';
import { readXml } from './xml.ts';

const text = (bytes: Uint8Array) => Buffer.from(bytes).toString();
const bytes = (said: string) => Uint8Array.from(Buffer.from(said));
const faultOf = (read: { ok: boolean; fault?: { code: string } }) => (read.ok ? undefined : read.fault?.code);

const info: StreamInfo = {
  name: 'Fernwater & plates',
  type: 'Force',
  channelCount: 2,
  format: 'float32',
  rate: 1000,
  sourceId: 'FW-0007',
  uid: 'a-b-c',
  sessionId: 'default',
  hostname: 'fernwater-1',
  version: 110,
  createdAt: 5000.25,
  address: '127.0.0.1',
  dataPort: 16_572,
  servicePort: 16_573,
  channels: [
    { label: 'left', unit: 'N', type: 'Force' },
    { label: 'right <2>', unit: 'N', type: '' },
  ],
};
const full = writeStreamInfo(info, 'full');
const changed = (field: string, to: string) => full.replace(new RegExp(`<${field}>[^<]*</${field}>`, 'u'), to);

describe('a query', () => {
  it('is the documented three lines', () => {
    const query = { filter: "name='A'", port: 40_001, id: '17' };
    expect(text(writeQuery(query))).toBe("LSL:shortinfo\r\nname='A'\r\n40001 17\r\n");
    expect(isQuery(writeQuery(query))).toBe(true);
    expect(readQuery(writeQuery(query))).toEqual({ ok: true, value: query });
  });

  it.each([
    '',
    'LSL:shortinfo',
    'LSL:shortinfo\r\n\r\n',
    'LSL:shortinfo\r\n\r\n0 1\r\n',
    'LSL:shortinfo\r\n\r\n70000 1\r\n',
    'LSL:shortinfo\r\n\r\n40 \r\n',
    'LSL:timedata\r\n1 2\r\n',
    'LSL:shortinfo\r\n\r\n40 1\r\nmore\r\n',
  ])('that is none is refused: %j', (said) => {
    expect(faultOf(readQuery(bytes(said)))).toBe('stream-query-unreadable');
  });

  it('that is too long is refused', () => {
    expect(faultOf(readQuery(writeQuery({ filter: 'a'.repeat(3000), port: 1, id: '1' })))).toBe(
      'stream-message-too-long',
    );
  });

  it('is answered by its id and the stream info', () => {
    expect(text(writeAnswer('17', '<info/>'))).toBe('17\r\n<info/>');
    expect(readAnswer(writeAnswer('17', full))).toEqual({ ok: true, value: { id: '17', info } });
    expect(faultOf(readAnswer(bytes('<info/>')))).toBe('stream-answer-unreadable');
    expect(faultOf(readAnswer(bytes('17\r\n')))).toBe('stream-xml-unreadable');
  });
});

describe('a stream info', () => {
  it('comes back as it was written; the short one without its channels', () => {
    expect(readStreamInfo(full)).toEqual({ ok: true, value: info });
    expect(readStreamInfo(writeStreamInfo(info, 'short'))).toEqual({ ok: true, value: { ...info, channels: [] } });
  });

  it.each([
    ['info', full.replaceAll('info>', 'stream>')],
    ['channel_count', changed('channel_count', '')],
    ['channel_count', changed('channel_count', '<channel_count>0</channel_count>')],
    ['channel_count', changed('channel_count', '<channel_count>2.5</channel_count>')],
    ['channel_count', changed('channel_count', '<channel_count>4000000000</channel_count>')],
    ['channel_format', changed('channel_format', '<channel_format>float16</channel_format>')],
    ['nominal_srate', changed('nominal_srate', '<nominal_srate>-1</nominal_srate>')],
    ['nominal_srate', changed('nominal_srate', '<nominal_srate>nan</nominal_srate>')],
    ['nominal_srate', changed('nominal_srate', '')],
    ['uid', changed('uid', '<uid> </uid>')],
    ['v4data_port', changed('v4data_port', '<v4data_port>0</v4data_port>')],
    ['v4service_port', changed('v4service_port', '<v4service_port>65536</v4service_port>')],
  ])('whose %s cannot be is refused', (field, xml) => {
    const read = readStreamInfo(xml);
    expect(faultOf(read)).toBe('stream-info-wrong');
    expect(!read.ok && read.fault.words).toContain(`"${field}"`);
  });

  it('takes no channels where there are not as many as it says', () => {
    const read = readStreamInfo(full.replace(/<channel><label>left[\s\S]*?<\/channel>/u, ''));
    expect(read.ok && read.value.channels).toEqual([]);
  });
});

describe('the condition of a query', () => {
  const root = (() => {
    const read = readXml(full);
    if (!read.ok) throw new Error('no XML');
    return read.value;
  })();
  it.each([
    ['', true],
    ["session_id='default'", true],
    ["session_id='default' and name='Fernwater & plates'", true],
    ['session_id=\'other\' or type="Force"', true],
    ["type='EEG'", false],
    ["not(type='EEG') and channel_count=2", true],
    ['nominal_srate>=1000 and nominal_srate < 1001', true],
    ['channel_count != 2', false],
    ["starts-with(name,'Fern') and contains(hostname, 'water')", true],
    ["(type='EEG' or type='Force') and true()", true],
    ["desc/channels/channel/label='left'", true],
    ["nothing='x'", false],
    ["nothing!='x'", false],
    ['source_id', true],
    ["type='Force' and false()", false],
  ])('%j is %j', (filter, met) => {
    expect(meetsFilter(filter, root)).toBe(met);
  });

  it.each([
    "name='A",
    'count(desc)=1',
    '//name',
    'name=',
    "name='a' name='b'",
    '(',
    `${'('.repeat(40)}1${')'.repeat(40)}`,
    '1'.repeat(2000),
    'not()',
    '@a',
  ])('%j is not understood, and so not answered', (filter) => {
    expect(meetsFilter(filter, root)).toBeUndefined();
  });

  it('never throws', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: fc.constantFrom(...'()=<>!,\'" andornt1/_-') }),
        (one) => void meetsFilter(one, root),
      ),
    );
  });
});

describe('the lines before the samples', () => {
  const request = {
    ...{ version: 110, uid: 'a-b-c', order: 'big' as const, valueBytes: 4, buffer: 360, chunk: 0 },
    ...{ hostname: 'station', sourceId: 'FW-0007', sessionId: 'default' },
  };
  it('ask as documented', () => {
    const said = text(writeFeedRequest(request));
    expect(said).toMatch(/^LSL:streamfeed\/110 a-b-c\r\nNative-Byte-Order: 4321\r\nHas-IEEE754-Floats: 1\r\n/u);
    expect(said).toContain('Data-Protocol-Version: 110\r\nMax-Buffer-Length: 360\r\nMax-Chunk-Length: 0\r\n');
    expect(said.endsWith('\r\n\r\n')).toBe(true);
    expect(readFeedRequest(said.trimEnd())).toEqual({ ok: true, value: request });
    expect(text(writeFeedRequest({ ...request, sourceId: 'a\r\nUID: b' }))).toContain('Source-Id: a UID: b\r\n');
    expect(faultOf(readFeedRequest('GET / HTTP/1.1'))).toBe('stream-header-unreadable');
  });

  it('answer as documented', () => {
    const answer = { uid: 'a-b-c', order: 'big', version: 110 } as const;
    const said = text(writeFeedAnswer(answer));
    expect(said).toBe(
      'LSL/110 200 OK\r\nUID: a-b-c\r\nByte-Order: 4321\r\nSuppress-Subnormals: 0\r\nData-Protocol-Version: 110\r\n\r\n',
    );
    expect(readFeedAnswer(said.trimEnd())).toEqual({ ok: true, value: answer });
    const ending = (head: string) => faultOf(readFeedAnswer(head));
    expect(ending(text(writeFeedRefusal(404)).trimEnd())).toBe('stream-not-there');
    expect(ending(text(writeFeedRefusal(505)).trimEnd())).toBe('stream-version-refused');
    expect(ending('LSL/110 503 Busy')).toBe('stream-refused');
    expect(ending('LSL/110 200 OK\r\nByte-Order: 1234\r\nData-Protocol-Version: 100')).toBe('stream-version-refused');
    expect(ending('LSL/110 200 OK\r\nByte-Order: 2143')).toBe('stream-header-unreadable');
    expect(ending('')).toBe('stream-header-unreadable');
  });

  it('are gathered from pieces of any size, and no further than they may be long', () => {
    for (const piece of [1, 2, 3, 5, 100]) {
      const gatherer = new HeadGatherer();
      const all = bytes('A: b\r\nC: d\r\n\r\n\u0002rest');
      let got: ReturnType<HeadGatherer['feed']>;
      let rest = '';
      for (let at = 0; at < all.length; at += piece) {
        if (got === undefined) {
          got = gatherer.feed(all.subarray(at, at + piece));
          if (got?.ok) rest = text(got.value.rest);
        } else rest += text(all.subarray(at, at + piece));
      }
      expect(got?.ok && got.value.head).toBe('A: b\r\nC: d');
      expect(rest).toBe('\u0002rest');
    }
    const endless = new HeadGatherer();
    let fed = 0;
    let last: ReturnType<HeadGatherer['feed']>;
    while (last === undefined && fed < 100_000) {
      last = endless.feed(new Uint8Array(1000).fill(65));
      fed += 1000;
    }
    expect(faultOf(last as { ok: boolean })).toBe('stream-message-too-long');
    expect(fed).toBeLessThanOrEqual(longestHead + 1000);
  });
});

describe('a time probe', () => {
  it('and its answer are as documented', () => {
    expect(text(writeTimeProbe({ wave: '3', sent: 12.5 }))).toBe('LSL:timedata\r\n3 12.5\r\n');
    expect(readTimeProbe(bytes('LSL:timedata\r\n3 12.5\r\n'))).toEqual({ ok: true, value: { wave: '3', sent: 12.5 } });
    const answer = { wave: '3', sent: 12.5, received: 100.25, answered: 100.5 };
    expect(text(writeTimeAnswer(answer))).toBe(' 3 12.5 100.25 100.5');
    expect(readTimeAnswer(writeTimeAnswer(answer))).toEqual({ ok: true, value: answer });
    for (const said of ['', '3 1 2', '3 1 2 x', '3 1 2 3 4', ` ${'3'.repeat(300)}`])
      expect(faultOf(readTimeAnswer(bytes(said))), said).toBe('stream-probe-unreadable');
    for (const said of [
      'LSL:timedata\r\n3\r\n',
      'LSL:timedata\r\n\r\n',
      'LSL:timedata\r\n3 1 2\r\n',
      'LSL:shortinfo\r\n3 1\r\n',
    ])
      expect(faultOf(readTimeProbe(bytes(said))), said).toBe('stream-probe-unreadable');
  });

  it('gives the offset by the four-time-stamp rule', () => {
    // By hand: the other clock is 100 s behind; out 10 ms, back 30 ms, 5 ms between. (200 - 100.01 + 200.045 - 100.015) / 2 = 100.01.
    const one = clockOffsetOf({ sent: 200, received: 100.01, answered: 100.015, back: 200.045 });
    expect(one.offset).toBeCloseTo(100.01, 9);
    expect(one.roundTrip).toBeCloseTo(0.04, 9);
    // It is wrong by half the round trip at most: the truth is 100.
    expect(Math.abs(one.offset - 100)).toBeLessThanOrEqual(one.roundTrip / 2);
  });

  it('SP-07: the worked example of the rule, with the sign turned', () => {
    // Worked by hand from the rule of RFC 5905, section 8: t0 to t3 = 100.000, 250.030, 250.031, 100.051 s; 150.005 s to add to the own clock, 0.050 s of travel.
    const one = clockOffsetOf({ sent: 100.0, received: 250.03, answered: 250.031, back: 100.051 });
    expect(Math.abs(-one.offset - 150.005)).toBeLessThan(1e-9);
    expect(Math.abs(one.roundTrip - 0.05)).toBeLessThan(1e-9);
  });

  it('counts by the fastest of at least six that came back within 128 ms', () => {
    const probe = (out: number, back: number) => ({
      sent: 50,
      received: 10 + out,
      answered: 10 + out,
      back: 50 + out + back,
    });
    const slow = Array.from({ length: 7 }, (_, i) => probe(0.02 + i / 1000, 0.01));
    expect(bestOffset([...slow, probe(0.001, 0.001)])?.offset).toBeCloseTo(40, 9);
    expect(bestOffset(slow.slice(0, 6))?.roundTrip).toBeCloseTo(0.03, 9);
    expect(bestOffset(slow.slice(0, 5))).toBeUndefined();
    expect(bestOffset([...slow.slice(0, 5), probe(0.1, 0.1)])).toBeUndefined();
    // An answer from the future is none.
    expect(bestOffset([...slow.slice(0, 5), { sent: 50, received: 10, answered: 20, back: 50.01 }])).toBeUndefined();
  });
});

describe('the patterns', () => {
  it('are of signs that change from channel to channel; with offset 0 the documented (0, -1)', () => {
    expect(testPattern({ format: 'float32', channels: 2 }, 0)).toEqual({ time: 123456.789, values: [0, -1] });
    expect(testPattern({ format: 'float32', channels: 3 }, 4).values).toEqual([4, -5, 6]);
    expect(testPattern({ format: 'int8', channels: 130 }, 2).values.every((one) => Math.abs(Number(one)) < 127)).toBe(
      true,
    );
  });
});

it('every code of what may be wrong stands on the page, in these words', () => {
  const page = readFileSync(new URL('../../../../docs/reference/source-description.md', import.meta.url), 'utf8');
  for (const [code, meaning] of Object.entries(streamFaults)) expect(page).toContain(`| \`${code}\` | ${meaning} |`);
});
