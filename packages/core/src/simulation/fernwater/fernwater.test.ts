import { describe, expect, it } from 'vitest';
import { protocolRegistry } from '../../protocols/index.ts';
import { faults } from '../faults/index.ts';
import { simulatePull } from '../simulate.ts';
import { fernwater, fernwaterRecording } from './fernwater.ts';
import { fernwaterJumpRecording } from './jumps.ts';

const lab = fernwater();
const imtpOf = (family: string) => {
  const person = lab.people.find((p) => p.familyName === family)!;
  return lab.sessions.filter((s) => s.person === person.id && s.protocol === 'imtp');
};
/** Mean net force of the maximal efforts that were not meant to go wrong. */
const levelOf = (session: (typeof lab.sessions)[number]): number => {
  const good = session.trials.filter((t) => t.effort === 'maximal' && t.spec.fault === undefined);
  return good.reduce((sum, t) => sum + t.spec.netForce!, 0) / good.length;
};
const shareOf = (session: (typeof lab.sessions)[number]): number => session.trials[0]!.spec.pullShareRight!;

describe('Fernwater', () => {
  it('is the same on every call', () => {
    expect(fernwater()).toEqual(lab);
  });

  it('has a dozen people in three squads, each seen on six or more days of three seasons', () => {
    expect(lab.people).toHaveLength(12);
    expect(new Set(lab.people.map((p) => `${p.givenName} ${p.familyName}`)).size).toBe(12);
    for (const person of lab.people) {
      expect(lab.squads.map((squad) => squad.id)).toContain(person.squad);
      const own = lab.sessions.filter((s) => s.person === person.id && s.protocol === 'imtp');
      expect(own.length).toBeGreaterThanOrEqual(6);
      expect(new Set(own.map((s) => s.season)).size).toBe(3);
    }
    expect(new Set(lab.sessions.map((s) => s.protocol))).toEqual(
      new Set(['imtp', 'imtp-explosive', 'isometric-squat', 'imtp-left', 'imtp-right']),
    );
  });

  it('has unique sessions in order of day, and trials in order of time', () => {
    expect(new Set(lab.sessions.map((s) => s.id)).size).toBe(lab.sessions.length);
    for (const session of lab.sessions) {
      expect(session.startedAt).toMatch(/^20\d\d-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/);
      expect(session.trials.map((t) => t.order)).toEqual(session.trials.map((_, i) => i + 1));
      const times = session.trials.map((t) => t.recordedAt);
      expect([...times].sort()).toEqual(times);
      expect(times[0]! > session.startedAt).toBe(true);
    }
    const days = lab.sessions.map((s) => s.startedAt.slice(0, 10));
    expect([...days].sort()).toEqual(days);
  });

  it('never has one athlete in two places: sessions of a day start at different times', () => {
    const starts = lab.sessions.map((s) => `${s.person} ${s.startedAt}`);
    expect(new Set(starts).size).toBe(starts.length);
  });

  it('has two to five maximal efforts a session, known faults among them, and no two trials with one seed', () => {
    const seeds = new Set<number>();
    const known = new Set(faults.map((fault) => fault.id));
    let bad = 0;
    let all = 0;
    for (const session of lab.sessions) {
      const maximal = session.trials.filter((t) => t.effort === 'maximal');
      expect(maximal.length).toBeGreaterThanOrEqual(2);
      expect(maximal.length).toBeLessThanOrEqual(5);
      for (const trial of session.trials) {
        seeds.add(trial.seed);
        all++;
        if (trial.spec.fault === undefined) continue;
        bad++;
        expect(known).toContain(trial.spec.fault);
        expect(trial.effort).toBe('maximal');
      }
    }
    expect(seeds.size).toBe(all);
    expect(bad / all).toBeGreaterThan(0.05);
    expect(bad / all).toBeLessThan(0.3);
  });

  it('holds the stories it tells', () => {
    const improving = imtpOf('Oyelaran');
    expect(levelOf(improving.at(-1)!) / levelOf(improving[1]!)).toBeGreaterThan(1.12);
    const steady = imtpOf('Nakashima');
    const ratio = levelOf(steady.at(-1)!) / levelOf(steady[1]!);
    expect(Math.abs(ratio - 1)).toBeLessThan(0.1);
    const hurt = imtpOf('Mbeki-Hale');
    const before = hurt.filter((s) => s.startedAt < '2025-03-01');
    const after = hurt.filter((s) => s.startedAt > '2025-03-01');
    expect(Math.max(...before.map(shareOf))).toBeLessThan(0.52);
    expect(shareOf(after[0]!)).toBeGreaterThan(0.55);
    expect(shareOf(after.at(-1)!)).toBeLessThan(shareOf(after[0]!));
  });

  it('shows a learning effect in the first session of the young', () => {
    const gains = ['Sorensen', 'Almgren', 'Kowhai'].map((name) => {
      const [first, second] = imtpOf(name);
      return levelOf(second!) / levelOf(first!);
    });
    expect(gains.reduce((a, b) => a + b) / 3).toBeGreaterThan(1.06);
  });

  it('makes recordings of two plates at 1000 Hz, lazily and the same each time', () => {
    const trial = lab.sessions[5]!.trials[0]!;
    const recording = fernwaterRecording(trial);
    expect(recording.sampleRate).toBe(1000);
    expect(recording.recordedAt).toBe(trial.recordedAt);
    expect(recording.channels.map((c) => c.name)).toEqual(['left', 'right']);
    expect(recording.sampleCount).toBeGreaterThan(6000);
    expect(recording.sampleCount).toBeLessThan(11_000);
    expect(fernwaterRecording(trial).channels[1]!.raw).toEqual(recording.channels[1]!.raw);
  });

  it('writes down every required setup field of its tests, and only fields they have', () => {
    for (const session of lab.sessions) {
      const fields = protocolRegistry.get(session.protocol)!.setupFields;
      for (const field of fields) if (field.required) expect(session.setup).toHaveProperty(field.id);
      for (const [id, value] of Object.entries(session.setup)) {
        const field = fields.find((f) => f.id === id)!;
        if (field.kind === 'choice') expect(field.choices).toContain(value);
        else expect(typeof value).toBe({ number: 'number', text: 'string', 'yes-no': 'boolean' }[field.kind]);
      }
    }
  });

  it('jumps too: fields as their tests ask, loads that lower the height, no two jumps with one seed', () => {
    const { jumps } = lab;
    expect(new Set(jumps.map(({ id }) => id)).size).toBe(jumps.length);
    expect(new Set(jumps.map(({ protocol }) => protocol))).toEqual(
      new Set(['countermovement-jump', 'squat-jump', 'countermovement-jump-loaded']),
    );
    const seeds = jumps.flatMap(({ trials }) => trials.map(({ seed }) => seed));
    expect(new Set(seeds).size).toBe(seeds.length);
    const starts = [...lab.sessions, ...jumps].map((one) => `${one.person} ${one.startedAt}`);
    expect(new Set(starts).size).toBe(starts.length);
    for (const { protocol, setup } of jumps) {
      const fields = protocolRegistry.get(protocol)!.setupFields;
      for (const field of fields) if (field.required) expect(setup).toHaveProperty(field.id);
      expect(fields.map(({ id }) => id)).toEqual(expect.arrayContaining(Object.keys(setup)));
    }
    const loaded = jumps.filter(({ person, setup }) => person === lab.people[0]!.id && setup.load !== undefined);
    const heights = loaded.map(({ trials }) => trials[0]!.spec.height ?? 0);
    expect(heights).toHaveLength(3);
    expect([...heights].sort((a, b) => b - a)).toEqual(heights);
    const recording = fernwaterJumpRecording(loaded[0]!.trials[0]!);
    expect(recording).toMatchObject({ sampleRate: 1000, recordedAt: loaded[0]!.trials[0]!.recordedAt });
  });

  it('weighs its people to within a few newtons of what stands on the plates', () => {
    for (const session of lab.sessions) {
      const first = session.trials[0]!;
      const truth = simulatePull({ ...first.spec, sampleRate: 50 }, first.seed).truth;
      expect(Math.abs(truth.bodyWeight - session.bodyWeight)).toBeLessThan(6);
      expect(session.bodyMass).toBeGreaterThan(45);
      expect(session.bodyMass).toBeLessThan(140);
    }
  });
});
