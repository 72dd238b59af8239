import { toOperator, toWall } from '@sthene/contract';
import { describe, expect, it } from 'vitest';
import type { Said } from '../../dev/live-messages.ts';
import { LiveScript } from '../../dev/live-script.ts';
import { forWall } from '../../dev/live-wall.ts';
import { type LiveState, linkLost, nothingYet, received } from './state.ts';
import { darkWall, type WallLive, wallLost, wallReceived } from './wall-state.ts';

const you = { device: 'dev', name: 'Floor' };

/** Numbers and validates what the script says, and lets the reducer take it. */
function play(state: LiveState, said: readonly Said[], at = 0): LiveState {
  return said.reduce(
    (now, message) => received(now, toOperator.parse({ ...message, sequence: now.sequence + 1 }), at),
    state,
  );
}

const command = (script: LiveScript, kind: 'begin' | 'advance' | 'cue' | 'abort') =>
  script.obey({ id: 'x', kind, phase: script.phase });

/** A turn up to its verdict. */
function judged(): { state: LiveState; script: LiveScript; phases: string[] } {
  const script = new LiveScript();
  const phases: string[] = [];
  let state = play(nothingYet, [script.snapshot(you)]);
  const take = (said: readonly Said[]) => {
    for (const message of said) if (message.type === 'phase') phases.push(message.floor.phase);
    state = play(state, said);
  };
  take(command(script, 'begin'));
  take(script.tick(4600));
  take(command(script, 'advance'));
  take(script.tick(1000));
  take(command(script, 'cue'));
  take(script.tick(7700));
  return { state, script, phases };
}

describe('received', () => {
  it('follows a whole turn to its verdict', () => {
    const { state, phases } = judged();
    expect([...new Set(phases)]).toEqual(['zero', 'stand-still', 'set-up', 'ready', 'cue', 'pull', 'verdict']);
    const rig = state.rigs['rig-a'];
    expect(rig?.floor?.phase).toBe('verdict');
    expect(rig?.verdict?.say).toBe('Good. That one counts');
    expect(rig?.cue?.sound).toBe('go');
    expect(rig?.countdown).toBeUndefined();
    expect(rig?.confirmed?.recording).toBe(true);
  });
  it('drops the verdict when the next effort begins, and keeps it in the rest', () => {
    const { state, script } = judged();
    const resting = play(state, command(script, 'advance'));
    expect(resting.rigs['rig-a']?.floor?.phase).toBe('rest');
    expect(resting.rigs['rig-a']?.verdict).toBeDefined();
    const again = play(resting, command(script, 'advance'));
    expect(again.rigs['rig-a']?.floor?.phase).toBe('set-up');
    expect(again.rigs['rig-a']?.verdict).toBeUndefined();
  });
  it('keeps the curve over a new snapshot and shows the hole', () => {
    const script = new LiveScript();
    let state = play(nothingYet, [script.snapshot(you), ...script.tick(200)]);
    script.tick(100);
    state = play(linkLost(state, 5), [script.snapshot(you), ...script.tick(100)]);
    const trace = state.rigs['rig-a']?.trace;
    expect(state.link).toBe('open');
    expect(trace?.low.length).toBe(80);
    expect(trace?.low.slice(40, 60).every((value) => value === null)).toBe(true);
    expect(trace?.low.slice(60).every((value) => typeof value === 'number')).toBe(true);
  });
  it('shows what was seen last when the link is lost, with the time of it', () => {
    const { state } = judged();
    const lost = linkLost(state, 77);
    expect(lost.link).toBe('lost');
    expect(lost.lostAt).toBe(77);
    expect(lost.rigs['rig-a']?.floor?.phase).toBe('verdict');
    expect(linkLost(lost, 99)).toBe(lost);
  });
  it('opens and closes questions, moves the controls, keeps a refusal', () => {
    const script = new LiveScript();
    let state = play(nothingYet, [script.snapshot(you), script.ask(), script.take({ id: 'b', name: 'Other' })]);
    expect(state.questions.map(({ id }) => id)).toEqual(['q1']);
    expect(state.controls.holder).toBe('b');
    state = play(state, [{ type: 'question-over', id: 'q1', choice: 'yes' }]);
    expect(state.questions).toEqual([]);
    state = play(state, script.obey({ id: 'late', kind: 'advance', phase: 'pull' }));
    expect(state.refused).toMatchObject({ id: 'late', code: 'wrong-phase' });
  });
  it('does not change the state it was given', () => {
    const script = new LiveScript();
    const before = play(nothingYet, [script.snapshot(you)]);
    const copy = structuredClone(before);
    play(before, [...command(script, 'begin'), ...script.tick(500)]);
    expect(before).toEqual(copy);
  });
});

describe('wallReceived', () => {
  const hear = (state: WallLive, script: LiveScript, said: readonly Said[]): WallLive =>
    said.reduce((now, one) => {
      const message = forWall(one, script);
      return message === undefined
        ? now
        : wallReceived(now, toWall.parse({ ...message, sequence: now.sequence + 1 }), 0);
    }, state);
  const opened = (script: LiveScript) => wallReceived(darkWall, toWall.parse({ ...script.wall(), sequence: 1 }), 0);

  it('shows cue and result and nothing from which a weight could be read', () => {
    const script = new LiveScript({ auto: true });
    let state = opened(script);
    state = hear(state, script, command(script, 'begin'));
    state = hear(state, script, script.tick(15_500));
    expect(script.phase).toBe('verdict');
    expect(state.cues['rig-a']?.sound).toBe('go');
    expect(state.wall?.rigs[0]?.result?.verdict).toBe('counts');
    const highest = Math.max(...(state.traces['rig-a']?.high ?? []).map((value) => value ?? 0));
    expect(highest).toBeGreaterThan(2050);
    expect(highest).toBeLessThan(2200);
  });
  it('forgets everything when it is blanked, and old forces when the link is lost', () => {
    const script = new LiveScript({ auto: true });
    let state = hear(opened(script), script, command(script, 'begin'));
    state = hear(state, script, script.tick(8000));
    expect(Object.keys(state.traces)).toEqual(['rig-a']);
    expect(wallLost(state).traces).toEqual({});
    script.obey({ id: 'x', kind: 'blank-wall', phase: script.phase });
    const blank = wallReceived(state, toWall.parse({ ...script.wall(), sequence: 9 }), 0);
    expect(blank.wall?.rigs).toEqual([]);
    expect(blank.traces).toEqual({});
    expect(blank.cues).toEqual({});
  });
});
