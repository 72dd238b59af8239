import { checkFacts, jumpOnsetRules, metricFacts, onsetRegistry, protocolRegistry } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import { publicationsOf } from '../src/build/references.ts';
import { numbersOf } from '../src/text/numbers.ts';
import { catalogue } from '../src/words/index.ts';
import { knownSentences, said } from '../src/words/trade/cautions.ts';
import { checkFinding, checkTitle } from '../src/words/trade/checks.ts';
import { metricTitle } from '../src/words/trade/metrics.ts';
import { onsetTitle } from '../src/words/trade/onset.ts';
import { choiceText, fieldTitle, testTitle, unlikeTitle } from '../src/words/trade/tests.ts';
import { documents, page, textOf } from './documents.ts';
import { oona } from './fernwater.ts';

/** Every text of the catalogue that is no function, by its path. */
function texts(value: unknown, path = ''): [string, string][] {
  if (typeof value === 'string') return [[path, value]];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => texts(inner, `${path}.${key}`));
}

describe('the catalogue', () => {
  it('has every word in both languages, and hardly any left in English', () => {
    const [english, german] = [texts(catalogue.en), new Map(texts(catalogue.de))];
    expect([...german.keys()].sort()).toEqual(english.map(([path]) => path).sort());
    const same = english.filter(([path, text]) => text.length > 0 && german.get(path) === text).map(([, text]) => text);
    // Words that are the same in both.
    expect(new Set(same)).toEqual(
      new Set(['SD', 'z', 'Filter', 'maximal', 'submaximal', 'SHA-256', 'Name', 'Software', '±']),
    );
  });

  it('has a German title for every metric, test, check, onset rule, setup field and choice of this program', () => {
    const same = [
      ...metricFacts.all.map(({ id, title }) => [metricTitle(id, 'de'), title]),
      ...protocolRegistry.all.map(({ id, title }) => [testTitle(id, 'de'), title]),
      ...checkFacts.all.flatMap(({ id, title, finding }) => [
        [checkTitle(id, 'de'), title],
        [checkFinding(id, 'de'), finding],
      ]),
      ...[...onsetRegistry.all, ...jumpOnsetRules.all].map(({ id, title }) => [onsetTitle(id, 'de'), title]),
      ...protocolRegistry.all
        .flatMap(({ setupFields }) => setupFields)
        .flatMap((field) => [
          [fieldTitle(field, 'de'), field.title],
          [unlikeTitle(field.title, 'de'), field.title],
          ...(field.choices ?? []).map((choice) => [choiceText(choice, 'de'), choice]),
        ]),
      ...knownSentences().map((sentence) => [said(sentence, 'de'), sentence]),
    ].filter(([german, english]) => german === english);
    expect(same).toEqual([]);
  });

  it('keeps titles apart: no two metrics have the same', () => {
    for (const language of ['en', 'de'] as const) {
      const titles = metricFacts.all.map(({ id }) => metricTitle(id, language));
      expect(new Set(titles).size).toBe(titles.length);
    }
  });

  it('writes numbers in the way of the language', () => {
    const [english, german] = [numbersOf('en'), numbersOf('de')];
    expect(english.quantity(12345.67, 'N')).toBe('12\u202f346\u00a0N');
    expect(german.quantity(-0.0123, 's')).toBe('\u22120,012\u00a0s');
    expect(english.range(-6, 342, 'N', 'to', true)).toBe('\u22126 to +342\u00a0N');
    expect(english.share(0.999)).toBe('>99\u00a0%');
    expect(german.short(0.995)).toBe('0,995');
  });
});

describe('reports', () => {
  it.each(['en', 'de'] as const)('say nothing undefined in %s', (language) => {
    for (const report of Object.values(documents(language)))
      expect(textOf(report)).not.toMatch(/undefined|NaN|\[object|Infinity/);
  });

  it('say how sure the headline is, what that means, and what is not in it', () => {
    const [athlete, session] = ['athlete', 'session'].map((kind) => textOf(documents('en')[kind] as never));
    expect(athlete).toContain(
      'Uncertainty ±\u202f8\u00a0N (k = 2): about 95 of 100 such intervals hold the value meant',
    );
    expect(athlete).toContain('Not known and not in it: gain of the plates, gain of each plate by itself');
    expect(session).toContain('Uncertainty ±\u202f20\u00a0N (k = 2)');
    expect(session).not.toContain('Not known and not in it');
    expect(athlete).toContain('Gain of two rigs, or of two checks');
    const german = textOf(documents('de').athlete as never);
    expect(german).toContain('Unsicherheit ±\u202f8\u00a0N (k = 2)');
    expect(german).toContain('Verstärkung jeder einzelnen Platte');
    const none = page({ ...oona, uncertainty: undefined });
    expect(textOf(none)).not.toContain('Uncertainty');
  });

  it('say what became of every effort, and by whom', () => {
    const said = textOf(documents('en').reliability as never);
    for (const one of [
      'Wren: 2',
      'Tension on the bar before the pull',
      'weighed (41 efforts)',
      '9.80665',
      '68.0 to 74.5',
    ])
      expect(said).toContain(one);
    // Set A of Weir 2005, J Strength Cond Res 19:231-240; the core's tests hold the same numbers against the paper.
    expect(said).toContain('7.6');
    expect(said).toContain('0.950');
  });

  it('name publications without the remarks about them', () => {
    expect(publicationsOf('Haff et al. 2015, J Strength Cond Res 29(2):386-395 (bands; here otherwise)')).toEqual([
      'Haff et al. 2015, J Strength Cond Res 29(2):386-395',
    ]);
    expect(
      publicationsOf(
        "Limits are proposals; the 1 s window: Dos'Santos et al. 2017, J Strength Cond Res 31(12):3463-3473",
      ),
    ).toEqual(["Dos'Santos et al. 2017, J Strength Cond Res 31(12):3463-3473"]);
    expect(publicationsOf('Definition and limits are proposals of this program')).toEqual([]);
    expect(publicationsOf('Jaafar and Lajili 2018, J Hum Kinet 65:21-34 (the same, knee extension)')).toEqual([
      'Jaafar and Lajili 2018, J Hum Kinet 65:21-34',
    ]);
  });
});
