import { existsSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { ToOperator } from '@sthene/contract';

/** Recordings made by others, of three people who jump on two plates; their origin and facts stand in SOURCE.md beside them. */
export const jumpsFolder = resolve(import.meta.dirname, '../../../../../shared/data/two-plate-jumps');
export const jumpsThere = existsSync(jumpsFolder);

/** A published recording: forces under both feet at 1000 Hz, N, and the quiet stance that others measured in its first half second. */
export interface JumpsRecording {
  readonly file: string;
  readonly left: Float64Array;
  readonly right: Float64Array;
  readonly stance: number;
}

/** Quiet stance by SOURCE.md. */
const stances = { BFR003: 784.6, BFR010: 580.1, BFR011: 757.8 } as const;

export const jumpsRecordings = (): JumpsRecording[] =>
  Object.entries(stances).map(([id, stance]) => {
    const file = `${id}_squat_jump.csv`;
    const lines = readFileSync(join(jumpsFolder, file), 'utf8').trim().split(/\r?\n/);
    const head = lines.findIndex((line) => line.includes('ground_force1_vy'));
    const names = lines[head]?.split(',') ?? [];
    const column = (name: string) =>
      Float64Array.from(lines.slice(head + 1), (line) => Number(line.split(',')[names.indexOf(name)]));
    // Right and left as SOURCE.md says.
    return { file, left: column('ground_force2_vy'), right: column('ground_force1_vy'), stance };
  });

/** Samples of the quiet stance at the beginning of each recording, which is what they do while they wait. */
export const waited = 500;
const stepping = 400; // samples
const tick = 20; // ms

/**
 * Two plates at the far end of a wire on which the people of the recordings stand, one a turn: they step on when they are called,
 * stand as in the first half second of their recording, forwards and backwards, and at the cue do what was recorded, sample by sample.
 * Their lines are those of `lineDescription`.
 */
export function recordedPlates(
  write: (bytes: Buffer) => void,
  recordings: readonly JumpsRecording[],
  codes: readonly string[],
  speed = 5,
) {
  let n = 0;
  let turn: string | undefined;
  let called: string | undefined;
  /** Sample at which somebody came, went, or began to jump. */
  let on: number | undefined;
  let off: number | undefined;
  let jump: number | undefined;
  let done = false;
  let timer: NodeJS.Timeout | undefined;
  const leave = () => {
    if (on !== undefined) off ??= n;
  };
  const feet = (): readonly [number, number] => {
    const recording = recordings[codes.indexOf(called ?? '')];
    if (recording === undefined || on === undefined || n < on) return [0, 0];
    const { left, right } = recording;
    if (jump !== undefined && n - jump < left.length) return [left[n - jump] as number, right[n - jump] as number];
    if (jump !== undefined && !done) {
      done = true;
      on = n - stepping;
      if (off !== undefined) off = n;
    }
    const gone = off === undefined ? 0 : Math.min(1, (n - off) / stepping);
    if (gone === 1) {
      on = off = jump = undefined;
      return [0, 0];
    }
    const share = Math.min(1, (n - on) / stepping) * (1 - gone);
    const back = (n - on) % (2 * waited);
    const i = back < waited ? back : 2 * waited - 1 - back;
    return [share * (left[i] as number), share * (right[i] as number)];
  };
  return {
    start() {
      timer = setInterval(() => {
        let text = '';
        for (let i = 0; i < speed * tick; i++, n++) text += `${n},${feet().join(',')}\n`;
        write(Buffer.from(text, 'latin1'));
      }, tick);
    },
    stop: () => clearInterval(timer),
    /** What the people read from a screen. */
    see(message: ToOperator): void {
      if (message.type === 'cue' && message.sound === 'go' && on !== undefined) jump ??= n;
      if (message.type !== 'phase') return;
      const { phase, turn: view } = message.floor;
      if (view !== undefined && view.id !== turn) {
        turn = view.id;
        called = view.person.code;
        done = false;
      }
      if (phase === 'waiting' || phase === 'zero' || phase === 'rest') leave();
      else if (phase === 'stand-still' && on === undefined) on = n + 600;
    },
  };
}
