import type { CommandKind, LivePhase, RigFloor } from '@sthene/contract';
import { livePhase } from '@sthene/contract';
import { describe, expect, it } from 'vitest';
import { roughMeasure } from '../../curve/scene.ts';
import { type ActsInput, cueArmed, mainAct, otherActs, readySooner, tooSoon } from './acts.ts';
import { actOf, keysFrom, keysText, usualKeys, withKey, withoutKey } from './keys.ts';
import { liveScene } from './live-scene.ts';
import { axisOf, balanceOf, clockText, forceText, forceView, shortForce } from './numbers.ts';
import { floorKey, type KeyMoment } from './use-floor-keys.ts';

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
  forces: 'total',
  now: { code: '', words: '' },
  scale: { low: 0, high: 3500 },
  ...change,
});
const input = (phase: LivePhase, change: Partial<ActsInput> = {}, floor: Partial<RigFloor> = {}): ActsInput => ({
  floor: floorIn(phase, floor),
  nextName: 'Tomas Brandt',
  nextTest: undefined,
  nextSooner: true,
  questionOpen: false,
  restLeft: 0,
  nothingLeft: false,
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
      jump: 'abort',
      verdict: 'advance',
      rest: 'advance',
    });
  });
  it('waits for an answer, a rest, somebody due; a stop waits for nothing', () => {
    expect(mainAct(input('ready', { questionOpen: true })).kind).toBeUndefined();
    expect(mainAct(input('pull', { questionOpen: true })).kind).toBe('abort');
    expect(mainAct(input('rest', { restLeft: 12 })).kind).toBeUndefined();
    expect(mainAct(input('waiting', { nextName: undefined })).kind).toBeUndefined();
    // Nobody rests for an effort that does not come.
    expect(mainAct(input('rest', { nothingLeft: true })).kind).toBe('begin');
    expect(mainAct(input('rest', { nothingLeft: true, nextName: undefined })).kind).toBe('finish');
    expect(otherActs(input('rest', { nothingLeft: true }))).toEqual([]);
    expect(mainAct(input('ready', {}, { held: true })).kind).toBe('resume');
  });
  it('arms a hands-free turn, and is there to stop its cue from then on', () => {
    expect(mainAct(input('ready', {}, { guided: false })).kind).toBe('arm');
    expect(mainAct(input('ready', {}, { guided: false, armed: true })).kind).toBe('abort');
    expect(cueArmed(floorIn('ready', { guided: false, armed: true }))).toBe(true);
    expect(cueArmed(floorIn('ready', { armed: true }))).toBe(false);
    expect(cueArmed(floorIn('set-up', { guided: false, armed: true }))).toBe(false);
    expect(cueArmed(floorIn('cue', { guided: false, armed: true, held: true }))).toBe(false);
  });
});

describe('otherActs', () => {
  const kindsOf = (given: ActsInput) => otherActs(given).map(({ kind }) => kind);
  it('offers what the phase allows', () => {
    expect(kindsOf(input('set-up'))).toEqual(['zero', 'skip']);
    expect(kindsOf(input('zero'))).toEqual(['zero']);
    expect(kindsOf(input('pull'))).toEqual([]);
    expect(kindsOf(input('verdict'))).toEqual(['begin']);
    expect(kindsOf(input('rest', { restLeft: 5 }))).toEqual(['skip', 'begin']);
    expect(kindsOf(input('rest', { restLeft: 5, nextSooner: false }))).toEqual(['skip']);
    expect(kindsOf(input('rest', { nextName: undefined }))).toEqual([]);
    expect(kindsOf(input('waiting'))).toEqual([]);
    expect(kindsOf(input('set-up', {}, { held: true }))).toEqual([]);
  });
  it('calls nobody who rests longer than the one on the rig', () => {
    const rests = (left: number) => ({
      rest: {
        since: '',
        readyAt: '',
        staleAt: '',
        left,
        state: left > 0 ? ('too-short' as const) : ('ready' as const),
      },
    });
    expect(readySooner(rests(40), rests(20))).toBe(false);
    expect(readySooner(rests(20), rests(40))).toBe(true);
    expect(readySooner(rests(-3), rests(-10))).toBe(true);
    expect(readySooner({}, rests(40))).toBe(true);
    expect(readySooner(rests(40), {})).toBe(true);
    expect(readySooner(rests(40), undefined)).toBe(true);
  });
  it('takes the second of two quick presses for a bounce', () => {
    const never = Number.NEGATIVE_INFINITY;
    expect(tooSoon('advance', { phaseAt: 1000, pressedAt: never }, 1499)).toBe(true);
    expect(tooSoon('advance', { phaseAt: 1000, pressedAt: never }, 1500)).toBe(false);
    expect(tooSoon('advance', { phaseAt: 0, pressedAt: 1000 }, 1400)).toBe(true);
  });
  it('lets a stop through at once where the phase began by itself', () => {
    const never = Number.NEGATIVE_INFINITY;
    expect(tooSoon('abort', { phaseAt: 1000, pressedAt: never }, 1001)).toBe(false);
    expect(tooSoon('abort', { phaseAt: 1000, pressedAt: 1000 }, 1300)).toBe(true);
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
    expect(axisOf(floorIn('ready', { weighing }), above)).toEqual([-150, 3000]);
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
  it('cannot be shown by any switch where the station keeps it', () => {
    const told = floorIn('ready', { forces: 'above', weighing: { progress: 1, done: true } });
    for (const allowed of [true, false]) {
      expect(forceView(told, allowed)).toEqual({ mode: 'above', less: 0 });
      expect(forceView(floorIn('stand-still', { forces: 'hidden' }), allowed).mode).toBe('hidden');
    }
  });
  it('is no secret in tests that do not weigh', () => {
    expect(forceText(900, forceView(floorIn('pull'), false))).toBe('900\u00a0N');
  });
});

describe('numbers', () => {
  it('signs the balance by side and leaves it out without load', () => {
    expect(balanceOf({ left: 490, right: 510 })).toBeCloseTo(2, 9);
    expect(balanceOf({ left: 40, right: 50 })).toBeUndefined();
    expect(balanceOf({ right: 500 })).toBeUndefined();
    expect(balanceOf({ shareRight: 51 })).toBeCloseTo(2, 9);
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
  const at = (focus: KeyMoment['focus'], change: Partial<KeyMoment> = {}): KeyMoment => ({
    focus,
    lettersOn: true,
    keys: usualKeys,
    cueArmed: false,
    running: false,
    ...change,
  });
  it('takes what a keyboard and a presenter send', () => {
    expect(floorKey(key(' '), at('page'))).toBe('main');
    expect(floorKey(key('PageDown'), at('control'))).toBe('main');
    expect(floorKey(key('PageUp'), at('control'))).toBe('stop');
    expect(floorKey(key('.'), at('page'))).toBe('blank');
    expect(floorKey(key('Escape'), at('control'))).toBe('stop');
    expect(floorKey(key('H'), at('page'))).toBe('hold');
  });
  it('leaves Space to a focused button, keys to fields and dialogs, and ignores a key held down', () => {
    expect(floorKey(key(' '), at('control'))).toBeUndefined();
    expect(floorKey(key(' '), at('typing'))).toBeUndefined();
    expect(floorKey(key('PageDown'), at('dialog'))).toBeUndefined();
    expect(floorKey(key('Escape'), at('dialog'))).toBeUndefined();
    expect(floorKey(key(' ', { repeat: true }), at('page'))).toBeUndefined();
    expect(floorKey(key('h'), at('page', { lettersOn: false }))).toBeUndefined();
    expect(floorKey(key('.'), at('page', { lettersOn: false }))).toBe('blank');
    expect(floorKey(key('p', { ctrlKey: true }), at('page'))).toBeUndefined();
  });
  it('stops a cue that sounds by itself with every key of a presenter, whatever else the key does', () => {
    const armed = at('page', { cueArmed: true });
    for (const name of ['PageDown', 'PageUp', ' ', 'b', 'B', '.', 'F5', 'ArrowRight', 'Escape', 'Enter'])
      expect(floorKey(key(name), armed), name).toBe('stop');
    expect(floorKey(key('n'), armed)).toBe('note');
    expect(floorKey(key('PageDown'), at('dialog', { cueArmed: true }))).toBe('stop');
  });
  it('stops a count or a pull with the page keys under a dialog and in a field too', () => {
    for (const focus of ['dialog', 'typing'] as const)
      expect(floorKey(key('PageUp'), at(focus, { running: true }))).toBe('stop');
  });
});

describe('the keys of a device', () => {
  it('are changed one by one, and one that is taken says by what', () => {
    expect(withKey(usualKeys, 'main', 'PageUp')).toEqual({ clash: 'stop' });
    const more = withKey(usualKeys, 'main', 'ArrowRight');
    expect(more).toMatchObject({ main: [' ', 'PageDown', 'ArrowRight'] });
    if ('clash' in more) throw new Error('the arrow is free');
    expect(actOf(more, 'ArrowRight')).toBe('main');
    expect(keysFrom(keysText(withoutKey(more, 'main', 'PageDown'))).main).toEqual([' ', 'ArrowRight']);
  });
  it('always keep Escape for stopping', () => {
    expect(withoutKey(usualKeys, 'stop', 'Escape').stop).toContain('Escape');
    expect(keysFrom('{"stop":[],"main":["Escape"," "]}')).toMatchObject({ stop: ['Escape'], main: [' '] });
  });
  it('come back as usual where what was kept cannot be read, and a key of two acts belongs to the first', () => {
    expect(keysFrom('not json')).toEqual(usualKeys);
    expect(keysFrom('{"main":["x"],"hold":["x"]}')).toMatchObject({ main: ['x'], hold: [] });
  });
});
