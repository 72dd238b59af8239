import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { childOf, readXml, writeXml, type XmlToWrite } from './xml.ts';

/** Whether XML 1.0 knows a character. */
const known = (character: string): boolean => {
  const code = character.codePointAt(0) ?? 0;
  return code >= 32 ? code !== 0xfffe && code !== 0xffff : [9, 10, 13].includes(code);
};

const code = (xml: string) => {
  const read = readXml(xml);
  return read.ok ? undefined : read.fault.code;
};

describe('the XML of a stream info', () => {
  it('is read with entities, numbered characters, CDATA, comments, instructions and attributes', () => {
    const read = readXml(
      `\uFEFF<?xml version="1.0" encoding='utf-8'?><!-- <a> --><info version="1" a='>'>\n <name>A &lt;&amp;&#65;&#x42; é</name><empty/><t><![CDATA[<x>&amp;]]> end</t ></info>\n`,
    );
    if (!read.ok) throw new Error(read.fault.words);
    expect(childOf(read.value, 'name')?.text).toBe('A <&AB é');
    expect(childOf(read.value, 'empty')).toEqual({ name: 'empty', text: '', children: [] });
    expect(childOf(read.value, 't')?.text).toBe('<x>&amp; end');
  });

  it.each([
    '',
    'text',
    '<a>',
    '</a>',
    '<a></b>',
    '<a/><b/>',
    '<a>&unknown;</a>',
    '<a>& b</a>',
    '<a>&#0;</a>',
    '<a>&#xD800;</a>',
    '<a b=c/>',
    '<a b="<"/>',
    '<1/>',
    '<a><!-- </a>',
    '<a><![CDATA[ </a>',
    '<!DOCTYPE a [<!ENTITY b "bbbb">]><a>&b;</a>',
    '<?xml ',
    `${'<a>'.repeat(40)}${'</a>'.repeat(40)}`,
    `<a>${'<b/>'.repeat(20_001)}</a>`,
  ])('that is none is refused: %s', (xml) => {
    expect(code(xml)).toBe('stream-xml-unreadable');
  });

  it('that is too long is refused before it is looked at', () => {
    expect(code(`<a>${' '.repeat(1 << 20)}</a>`)).toBe('stream-message-too-long');
  });

  it('comes back as it was written', () => {
    const text = fc.string({ unit: 'grapheme', maxLength: 30 });
    const { tree } = fc.letrec<{ tree: XmlToWrite; inside: string | XmlToWrite[] }>((tie) => ({
      tree: fc.tuple(fc.constantFrom('a', 'b-c', 'd_1'), tie('inside')),
      inside: fc.oneof({ depthSize: 'small' }, text, fc.array(tie('tree'), { maxLength: 3 })),
    }));
    const plain = ([name, inside]: XmlToWrite): object => ({
      name,
      text: typeof inside === 'string' ? [...inside].filter(known).join('') : '',
      children: typeof inside === 'string' ? [] : inside.map(plain),
    });
    fc.assert(
      fc.property(tree, (one) => {
        const read = readXml(writeXml(one));
        expect(read).toEqual({ ok: true, value: plain(one) });
      }),
    );
  });

  it('never throws, and takes time in proportion to the length', () => {
    fc.assert(fc.property(fc.string({ unit: fc.constantFrom(...'<>/a!-[]&;="\' ?') }), (xml) => void readXml(xml)));
    // A tag of half a million attributes, and one that never ends: what a careless expression takes minutes for.
    for (const xml of [`<a ${'b="" '.repeat(150_000)}/>`, `<a ${'b="" '.repeat(150_000)}`, '<'.repeat(500_000)]) {
      const began = process.cpuUsage();
      readXml(xml);
      expect(process.cpuUsage(began).user / 1000).toBeLessThan(2000);
    }
  });
});
