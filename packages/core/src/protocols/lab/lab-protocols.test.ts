import { describe, expect, it } from 'vitest';
import {
  applyProtocol,
  builtInProtocols,
  checkRegistry,
  defaultMethod,
  estimateProtocol,
  firstVersion,
  methodOfProtocol,
  methodReference,
  nextVersion,
  type ProtocolDocument,
  protocolAdvice,
  protocolAdviceCodes,
  protocolDifferences,
  protocolFaults,
  protocolField,
  protocolFields,
  protocolReference,
  protocolRegistry,
  protocolSentences,
  runningRules,
  usualProtocol,
  validateProtocol,
} from '../../index.ts';

const usual = usualProtocol('imtp');

/** A copy with one value changed; `undefined` takes it away. */
function changed(path: string, value: unknown, of: ProtocolDocument = usual): ProtocolDocument {
  const copy = structuredClone(of) as never;
  const keys = path.split('.');
  let at: Record<string, unknown> = copy;
  for (const key of keys.slice(0, -1)) at = at[key] as Record<string, unknown>;
  const last = keys.at(-1) as string;
  if (value === undefined) delete at[last];
  else at[last] = value;
  return copy;
}

const faultsOf = (document: unknown): string[] => {
  const outcome = validateProtocol(document);
  return outcome.ok ? [] : outcome.faults.map(({ code, at }) => `${code} ${at}`);
};
const adviceOf = (document: ProtocolDocument) => protocolAdvice(document).map(({ code, at }) => `${code} ${at}`);

describe('the built-in protocols', () => {
  it('are one for each test and two for a first time, all of them without fault', () => {
    expect(builtInProtocols.all.slice(0, protocolRegistry.all.length).map(({ id }) => id)).toEqual(
      protocolRegistry.all.map(({ id }) => id),
    );
    expect(builtInProtocols.all.slice(protocolRegistry.all.length).map(({ id }) => id)).toEqual([
      'imtp-first-time',
      'isometric-squat-first-time',
    ]);
    for (const { document } of builtInProtocols.all) expect(faultsOf(document)).toEqual([]);
    const names = builtInProtocols.all.map(({ document }) => document.name);
    expect(new Set(names).size).toBe(names.length);
  });

  it('run their tests exactly as the tests are run without a protocol', () => {
    for (const test of protocolRegistry.all) {
      const { test: applied, running } = applyProtocol(usualProtocol(test.id));
      expect(applied).toEqual(test);
      const { cue, agreement, stop, ...rest } = running;
      const { cue: usualCue, stop: usualStop, ...usualRest } = runningRules(test);
      expect(rest).toEqual(usualRest);
      expect(cue).toEqual({ ...usualCue, spoken: false });
      expect(stop).toEqual({ ...usualStop, closes: false });
      expect(agreement).toEqual({ difference: defaultMethod.set.agreement });
      expect(methodOfProtocol(defaultMethod, usualProtocol(test.id))).toBe(defaultMethod);
    }
  });

  // A changed hash is another protocol: change a built-in one by giving it version 2, and keep version 1 readable.
  it('keep their hashes', () => {
    expect(
      Object.fromEntries(
        builtInProtocols.all.map(({ id, document }) => [id, protocolReference(document).sha256.slice(0, 16)]),
      ),
    ).toMatchInlineSnapshot(`
      {
        "calf-left": "bd0f6b056c6218a4",
        "calf-right": "1b08201e66b9aa4d",
        "countermovement-jump": "282c7812ac4a924b",
        "countermovement-jump-left": "3174d019829d5ab9",
        "countermovement-jump-loaded": "df0b4ed115c00e69",
        "countermovement-jump-right": "13120871021a0f99",
        "drop-jump": "d18e3074e7148afe",
        "hamstring-left": "b0f811c05f80d1bf",
        "hamstring-right": "547396266f1bfbdc",
        "hip-abduction-left": "c43155821073a393",
        "hip-abduction-right": "2769d879b0cd97e3",
        "hip-adduction-left": "f600c9d8a527adb9",
        "hip-adduction-right": "4e14470de48b5261",
        "imtp": "c94554a4ee46a4b5",
        "imtp-explosive": "deae464f0686ff74",
        "imtp-first-time": "6ec231169bf91edd",
        "imtp-left": "0f823a7956156f53",
        "imtp-right": "ee8f1888d3000092",
        "isometric-effort": "c60212910d3f7f34",
        "isometric-squat": "906e944510713c6d",
        "isometric-squat-first-time": "6857591c64801315",
        "isometric-squat-left": "652e2e7fd598db48",
        "isometric-squat-right": "032cd20fc11b88b0",
        "repeated-hops": "296a8a592de5aa7b",
        "squat-jump": "409f14bd091cb917",
        "squat-jump-loaded": "91e3653e5fe9a5b4",
        "upper-body-pull-left": "65d6720381b26c15",
        "upper-body-pull-right": "0bd6412aa4845254",
        "upper-body-push-left": "f1d8c577ed42b184",
        "upper-body-push-right": "1ce0b734f9d12470",
      }
    `);
  });
});

describe('the hash', () => {
  it('is that of the content, whatever the order it was written in, and words for people stay out of it', () => {
    const turned = Object.fromEntries(Object.entries(structuredClone(usual)).reverse()) as unknown as ProtocolDocument;
    expect(protocolReference(turned)).toEqual(protocolReference(usual));
    const reworded = { ...usual, summary: 'Other words.', note: 'Better words' };
    expect(protocolReference(reworded).sha256).toBe(protocolReference(usual).sha256);
    expect(protocolReference(changed('rest.minimum', 121)).sha256).not.toBe(protocolReference(usual).sha256);
  });

  it('chains versions', () => {
    const first = firstVersion({ ...usual, name: 'Boathouse pull' });
    const second = nextVersion(first, { ...changed('rest.minimum', 90, first), note: 'Less waiting' });
    expect(second).toMatchObject({ version: 2, succeeds: { version: 1, sha256: protocolReference(first).sha256 } });
    expect(first.succeeds).toBeUndefined();
    const third = nextVersion(second, second);
    expect(third.succeeds?.sha256).toBe(protocolReference(second).sha256);
    expect(faultsOf(second)).toEqual([]);
  });
});

describe('the door', () => {
  const cases: readonly [string, unknown, string][] = [
    ['schema', 'sthene.protocol/2', 'protocol-schema-unknown schema'],
    ['name', undefined, 'protocol-field-missing name'],
    ['name', ' ', 'protocol-empty name'],
    ['name', 'x'.repeat(81), 'protocol-too-long name'],
    ['version', 0, 'protocol-type-wrong version'],
    ['succeeds', { version: 1, sha256: 'abc' }, 'protocol-type-wrong succeeds.sha256'],
    ['colour', 'red', 'protocol-field-unknown colour'],
    ['test.id', 'high-jump', 'protocol-test-unknown test.id'],
    ['test.version', 9, 'protocol-test-unknown test.version'],
    ['warmUp', [], 'protocol-not-an-object warmUp'],
    ['warmUp.steps', 'row', 'protocol-not-an-object warmUp.steps'],
    ['warmUp.steps.0', '', 'protocol-empty warmUp.steps.0'],
    ['warmUp.confirm', 'yes', 'protocol-type-wrong warmUp.confirm'],
    ['warmUp.efforts.0.share', '50', 'protocol-type-wrong warmUp.efforts.0.share'],
    ['warmUp.efforts.1.band', 0.4, 'protocol-order-wrong warmUp.efforts.1.band'],
    ['warmUp.efforts.0.hold', 3, 'protocol-field-unknown warmUp.efforts.0.hold'],
    ['maximal.planned', 2.5, 'protocol-out-of-range maximal.planned'],
    ['maximal.planned', 1, 'protocol-order-wrong maximal.planned'],
    ['maximal.maximum', 2, 'protocol-order-wrong maximal.maximum'],
    ['maximal.minimum', 0, 'protocol-order-wrong maximal.minimum'],
    ['rest.maximum', 110, 'protocol-order-wrong rest.maximum'],
    ['rest.minimum', Number.NaN, 'protocol-type-wrong rest.minimum'],
    ['cue.words', '', 'protocol-empty cue.words'],
    ['cue.voice', 'shouted', 'protocol-choice-unknown cue.voice'],
    ['pull.warnUnder', 6, 'protocol-order-wrong pull.warnUnder'],
    ['pull.failUnder', 3, 'protocol-order-wrong pull.failUnder'],
    ['stop.act', 'shrug', 'protocol-choice-unknown stop.act'],
    ['checks', [], 'protocol-not-an-object checks'],
    ['checks', { smile: { use: true } }, 'protocol-check-unknown checks.smile'],
    ['checks', { gap: { limits: {} } }, 'protocol-field-missing checks.gap.use'],
    [
      'checks',
      { countermovement: { use: true, limits: { dip: 3 } } },
      'protocol-check-unknown checks.countermovement.limits.dip',
    ],
    [
      'checks',
      { countermovement: { use: true, limits: { warn: -1 } } },
      'protocol-out-of-range checks.countermovement.limits.warn',
    ],
    ['setupFields.0.id', 'Bar height', 'protocol-type-wrong setupFields.0.id'],
    ['setupFields.1.id', 'bar_height', 'protocol-twice setupFields.1.id'],
    ['setupFields.0.unit', 'furlong', 'protocol-choice-unknown setupFields.0.unit'],
    ['setupFields.4.choices', ['one'], 'protocol-choices-missing setupFields.4.choices'],
    ['localRules', ['x'.repeat(201)], 'protocol-too-long localRules.0'],
  ];
  it.each(cases)('refuses %s as %o', (path, value, fault) => {
    expect(faultsOf(changed(path, value))).toContain(fault);
  });

  it.each([[undefined], [null], [7], ['protocol'], [[]], [{}]])('refuses %o without falling over', (document) => {
    expect(faultsOf(document).length).toBeGreaterThan(0);
  });

  it('keeps every limit of the catalogue, on both sides, and says why', () => {
    for (const { path, low, high, why, optional } of protocolFields) {
      const at = path.replace('*', '0');
      for (const value of [low - 0.001, high + 0.001]) {
        const outcome = validateProtocol(changed(at, value));
        if (outcome.ok) throw new Error(`${at} let ${value} through`);
        expect(outcome.faults).toMatchObject([{ code: 'protocol-out-of-range', at }]);
        expect(outcome.faults[0]?.words).toContain(why);
      }
      expect(faultsOf(changed(at, undefined))).toEqual(optional ? [] : [`protocol-field-missing ${at}`]);
      expect(protocolField(at)?.path).toBe(path);
    }
  });

  it('lets no maximal effort be planned without a warm-up', () => {
    const cold = { ...usual, warmUp: { ...usual.warmUp, steps: [], efforts: [] } };
    expect(faultsOf(cold)).toEqual(['protocol-no-warm-up warmUp.efforts']);
    const nothing = { ...cold, maximal: { minimum: 0, planned: 0, maximum: 0 } };
    expect(faultsOf(nothing)).toEqual(['protocol-no-warm-up warmUp.efforts']);
  });

  it('can say each of its codes', () => {
    const said = new Set([...cases.map(([, , fault]) => fault.split(' ')[0]), 'protocol-no-warm-up']);
    expect([...said].sort()).toEqual(Object.keys(protocolFaults).sort());
  });
});

it('advises where something allowed deserves a thought', () => {
  expect(adviceOf(usual)).toEqual([]);
  const found = [
    ...adviceOf(changed('warmUp.efforts', [])),
    ...adviceOf(changed('warmUp.efforts.1.share', 0.4)),
    ...adviceOf(changed('rest.minimum', 60)),
    ...adviceOf({ ...usual, maximal: { minimum: 1, planned: 1, maximum: 3 } }),
    ...adviceOf(changed('cue.words', 'Go.')),
    ...adviceOf(changed('pull.seconds', 2)),
    ...adviceOf(changed('checks', { gap: { use: false } })),
  ];
  expect(found).toEqual([
    'advice-no-submaximal warmUp.efforts',
    'advice-last-effort-easy warmUp.efforts.1.share',
    'advice-efforts-not-rising warmUp.efforts.1.share',
    'advice-short-rest rest.minimum',
    'advice-few-efforts maximal.planned',
    'advice-cue-differs cue.words',
    'advice-pull-differs pull.seconds',
    'advice-check-off checks.gap',
  ]);
  expect(found.map((one) => one.split(' ')[0]).sort()).toEqual(Object.keys(protocolAdviceCodes).sort());
});

describe('a protocol applied', () => {
  it('keeps what makes results comparable, and puts local rules before the cautions, which all stay', () => {
    const own = { ...usual, localRules: ['Two people at the rig.'], cue: { ...usual.cue, words: 'Push.' } };
    const base = protocolRegistry.get('imtp');
    const { test } = applyProtocol(own);
    expect(test).toMatchObject({ id: 'imtp', version: base?.version, pool: base?.pool, load: 'weight', cue: 'Push.' });
    expect(test.cautions).toEqual(['Two people at the rig.', ...(base?.cautions ?? [])]);
  });

  it('switches checks and moves limits in a method that says so, and leaves every other check alone', () => {
    const own = {
      ...usual,
      checks: { gap: { use: false }, countermovement: { use: true, limits: { warn: 30 } }, spike: { use: true } },
    };
    const method = methodOfProtocol(defaultMethod, own);
    expect(method.checks.gap).toBeUndefined();
    expect(method.checks.countermovement?.limits).toEqual({ warn: 30, fail: 50 });
    expect(method.checks.spike).toEqual(defaultMethod.checks.spike);
    expect(Object.keys(method.checks)).toHaveLength(checkRegistry.all.length - 1);
    expect(method.derivedFrom).toEqual({
      ...methodReference(defaultMethod),
      changes: { 'checks.countermovement.limits.warn': 30, 'checks.gap': 'off' },
    });
    expect(methodOfProtocol(defaultMethod, own)).toBe(method);
    const without = methodOfProtocol(defaultMethod, { ...usual, checks: { gap: { use: false } } });
    const back = methodOfProtocol(without, { ...usual, checks: { gap: { use: true } } });
    expect(back.checks.gap).toEqual(defaultMethod.checks.gap);
  });
});

it('says what differs between two versions, and nothing where the day is run alike', () => {
  const before = usual;
  expect(protocolDifferences(before, nextVersion(before, { ...usual, note: 'No change' }))).toEqual([]);
  const after = {
    ...changed('rest.minimum', 90),
    warmUp: { ...usual.warmUp, efforts: [...usual.warmUp.efforts, { share: 0.9, band: 0.05, weightShare: 1.5 }] },
    stop: { ...usual.stop, fall: 0.2 },
    checks: { gap: { use: false } },
    setupFields: usual.setupFields.slice(1),
    localRules: ['Two people at the rig.'],
  };
  expect(protocolDifferences(before, after)).toEqual([
    {
      at: 'rest.minimum',
      title: 'Shortest rest after a maximal effort',
      before: '2 min',
      after: '90 s',
    },
    {
      at: 'setupFields.bar_height',
      title: 'Setup field: Bar height above the plates',
      before: 'Bar height above the plates, a number in cm, needed',
    },
    {
      at: 'warmUp.efforts.2',
      title: 'Submaximal effort 3',
      after: '90 % within 5 %, or of 1.5 body weights without an own best',
    },
    { at: 'stop.fall', title: 'Stop after a fall from the best of the day', after: '20 %' },
    { at: 'checks.gap', title: `Check: ${checkRegistry.get('gap')?.title}`, after: 'off' },
    { at: 'localRules.0', title: 'Local rule 1', after: 'Two people at the rig.' },
  ]);
});

it('says itself in plain sentences', () => {
  expect(protocolSentences(usual)).toEqual([
    '2 warm-up steps, then 2 submaximal efforts at 50 % and 75 % with 60 s of rest after each.',
    '3 maximal pulls of 5 s; at least 2 must count, at most 5 are made.',
    '2 min of rest between them; after 10 min one submaximal effort comes first.',
    'A count of 3, then the tone: "Push the ground away as fast and as hard as you can."',
    'One more pull while the two best differ by more than 250 N.',
    'After 3 rejected pulls in a row stopping is advised.',
    'About 9 min for one athlete, 6 min of it resting, while others can be tested.',
  ]);
  const first = builtInProtocols.get('imtp-first-time')?.document as ProtocolDocument;
  expect(protocolSentences(first)[1]).toBe('No maximal effort.');
  // A jump has no length, and two heights do not differ by newtons.
  const jump = builtInProtocols.get('countermovement-jump')?.document as ProtocolDocument;
  expect(protocolSentences(jump).join(' ')).not.toMatch(/pull|newton| N\b/);
  expect(protocolSentences(jump)).toEqual(
    expect.arrayContaining([
      '3 maximal jumps; at least 2 must count, at most 6 are made.',
      'One more jump while the two best differ by more than the jump method allows.',
      'After 3 rejected jumps in a row stopping is advised.',
    ]),
  );
});

// Five efforts of 20 s setup, 1 s steady, 3 s count, 5 s pull and 5 s verdict, 15 s to zero and weigh, and the rests, added by hand.
it('estimates the time of one athlete from its own parts', () => {
  expect(estimateProtocol(usual)).toEqual({ seconds: 15 + 5 * 34 + 2 * 60 + 2 * 120, resting: 360, efforts: 5 });
  const first = builtInProtocols.get('imtp-first-time')?.document as ProtocolDocument;
  expect(estimateProtocol(first)).toEqual({ seconds: 15 + 4 * 34 + 3 * 60, resting: 180, efforts: 4 });
});
