import type { CommandKind, LivePhase, RigFloor } from '@sthene/contract';
import { livePhase } from '@sthene/contract';
import { describe, expect, it } from 'vitest';
import { roughMeasure } from '../../curve/scene.ts';
import { type ActsInput, mainAct, otherActs, tooSoon } from './acts.ts';
import { liveScene } from './live-scene.ts';
import { axisOf, balanceOf, clockText, forceText, forceView, shortForce } from './numbers.ts';
import { floorKey } from './use-floor-keys.ts';

const person = { id: 'p', name: 'Ines Okoro', code: 'FW-07' };
const floorIn = (phase: LivePhase, change: Partial<RigFloor> = {}): RigFloor => ({
  rig: 'a',
  phase,
  since: 0,
  ...(phase === 'waiting'
    ? {}
    : { turn: { id: 't', entry: 'e', person, test: 'imtp', effort: { kind: 'maximal' as const }, words: '' } }),
  guided: true,
  armed: false,
  held: false,
  now: { code: '', words: '' },
  scale: { low: 0, high: 3500 },
  ...change,
});
const input = (phase: LivePhase, change: Partial<ActsInput> = {}, floor: Partial<RigFloor> = {}): ActsInput => ({
  floor: floorIn(phase, floor),
  nextName: 'Tomas Brandt',
  questionOpen: false,
  restLeft: 0,
  ...change,
});

describe('mainAct', () => {
  it('asks in each phase for what a person decides there, and for nothing where the plates decide', () => {
    const kinds = livePhase.options.map((phase): [LivePhase, CommandKind | undefined] => [
      phase,
      mainAct(input(phase)).kind,
    ]);
    expect(Object.fromEntries(kinds)).toEqual({
      waiting: 'begin',
      zero: undefined,
      'stand-still': undefined,
      'set-up': 'advance',
      ready: 'cue',
      cue: 'abort',
      pull: 'abort',
      verdict: 'advance',
      rest: 'advance',
    });
  });
  it('waits for an answer, a rest, somebody due; a stop waits for nothing', () => {
    expect(mainAct(input('ready', { questionOpen: true })).kind).toBeUndefined();
    expect(mainAct(input('pull', { questionOpen: true })).kind).toBe('abort');
    expect(mainAct(input('rest', { restLeft: 12 })).kind).toBeUndefined();
    expect(mainAct(input('waiting', { nextName: undefined })).kind).toBeUndefined();
    expect(mainAct(input('ready', {}, { held: true })).kind).toBe('resume');
    expect(mainAct(input('ready', {}, { guided: false })).kind).toBeUndefined();
    expect(mainAct(input('ready', {}, { guided: false, armed: true })).kind).toBe('cue');
  });
});

describe('otherActs', () => {
  const kindsOf = (given: ActsInput) => otherActs(given).map(({ kind }) => kind);
  it('offers what the phase allows', () => {
    expect(kindsOf(input('set-up'))).toEqual(['zero', 'skip']);
    expect(kindsOf(input('zero'))).toEqual(['zero']);
    expect(kindsOf(input('pull'))).toEqual([]);
    expect(kindsOf(input('rest', { restLeft: 5 }))).toEqual(['skip', 'begin']);
    expect(kindsOf(input('rest', { nextName: undefined }))).toEqual([]);
    expect(kindsOf(input('waiting'))).toEqual([]);
    expect(kindsOf(input('set-up', {}, { held: true }))).toEqual([]);
  });
  it('takes the second of two quick presses for a bounce', () => {
    expect(tooSoon(1000, 1499)).toBe(true);
    expect(tooSoon(1000, 1500)).toBe(false);
  });
});

describe('body weight', () => {
  const weighing = { progress: 1, done: true, bodyWeight: 742 };
  const above = forceView(floorIn('ready', { weighing }), false);
  it('is not told by any number unless it is allowed', () => {
    for (const phase of ['waiting', 'zero', 'stand-still'] as const)
      expect(forceText(742, forceView(floorIn(phase), false))).toBeUndefined();
    expect(above).toEqual({ mode: 'above', less: 742 });
    expect(forceText(2868, above)).toBe('2126\u00a0N above standing');
    expect(shortForce(760, above)).toBe('+18\u00a0N');
    expect(forceText(0, above)).toBeUndefined();
    expect(forceText(2868, forceView(floorIn('ready', { weighing }), true))).toBe('2868\u00a0N');
  });
  it('is not on the axis, nor readable from the curve of someone who stepped off', () => {
    expect(axisOf(floorIn('ready', { weighing }), above)).toEqual([-250, 3000]);
    const texts = (phase: LivePhase) => {
      const floor = floorIn(phase);
      const view = forceView(floor, false);
      const scene = liveScene({
        width: 700,
        height: 500,
        trace: undefined,
        floor,
        view,
        axis: axisOf(floor, view),
        measure: roughMeasure,
      });
      return scene.marks
        .filter((mark) => mark.kind === 'text' && mark.x < 62)
        .map((mark) => (mark.kind === 'text' ? mark.text : ''));
    };
    expect(texts('stand-still').filter((text) => /\d/.test(text))).toEqual([]);
    expect(texts('pull')).toContain('1000');
  });
  it('is no secret in tests that do not weigh', () => {
    expect(forceText(900, forceView(floorIn('pull'), false))).toBe('900\u00a0N');
  });
});

describe('numbers', () => {
  it('signs the balance by side and leaves it out without load', () => {
    expect(balanceOf(490, 510)).toBeCloseTo(2, 9);
    expect(balanceOf(40, 50)).toBeUndefined();
    expect(balanceOf(undefined, 500)).toBeUndefined();
  });
  it('counts down to zero and not below', () => {
    expect([179.2, 60, 0.4, -3].map(clockText)).toEqual(['3:00', '1:00', '0:01', '0:00']);
  });
});

describe('floorKey', () => {
  const key = (name: string, change = {}) => ({
    key: name,
    repeat: false,
    ctrlKey: false,
    metaKey: false,
    altKey: false,
    ...change,
  });
  it('takes what a keyboard and a presenter send', () => {
    expect(floorKey(key(' '), 'page', true)).toBe('main');
    expect(floorKey(key('PageDown'), 'control', true)).toBe('main');
    expect(floorKey(key('Escape'), 'control', true)).toBe('stop');
    expect(floorKey(key('H'), 'page', true)).toEqual({ letter: 'h' });
  });
  it('leaves Space to a focused button, keys to fields and dialogs, and ignores a key held down', () => {
    expect(floorKey(key(' '), 'control', true)).toBeUndefined();
    expect(floorKey(key(' '), 'typing', true)).toBeUndefined();
    expect(floorKey(key('PageDown'), 'dialog', true)).toBeUndefined();
    expect(floorKey(key('Escape'), 'dialog', true)).toBeUndefined();
    expect(floorKey(key(' ', { repeat: true }), 'page', true)).toBeUndefined();
    expect(floorKey(key('h'), 'page', false)).toBeUndefined();
    expect(floorKey(key('p', { ctrlKey: true }), 'page', true)).toBeUndefined();
  });
});
