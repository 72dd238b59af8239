import type { EngineOutput } from '@sthene/capture';
import type { QuestionView } from '@sthene/contract';
import { effortWords } from './day/remaining.ts';
import type { Message } from './hub/client.ts';
import type { LiveLab } from './live-lab.ts';
import { weightNoteOf } from './one-weighing.ts';
import type { RigRuntime } from './rig/rig-runtime.ts';
import { told } from './telling.ts';
import type { RunningTurn } from './turn.ts';

/** What an engine says becomes messages, sounds and things to keep. */
export function takeOutput(live: LiveLab, runtime: RigRuntime, output: EngineOutput, test: string): void {
  const rig = runtime.id;
  const turn = live.starting.get(rig) ?? live.turns.get(rig);
  switch (output.kind) {
    case 'phase': {
      if (output.phase === 'cue' && turn !== undefined) delete turn.cueHeard;
      const target = output.effort?.target;
      if (turn !== undefined) {
        if (target === undefined) delete turn.target;
        else turn.target = { low: target.low, high: target.high };
        effortIs(turn, output.effort);
      }
      live.room.phaseOf(runtime);
      live.tellFloor(rig);
      if (output.phase === 'rest' || output.phase === 'waiting') live.nextUp.soon();
      return;
    }
    case 'stage':
      live.tellFloor(rig);
      return;
    case 'guidance':
      live.tellFloor(rig);
      if (output.code === 'relax' || output.code === 'stop') live.sound(rig, output.code, output.words);
      return;
    case 'state':
      live.tellFloor(rig);
      return;
    case 'countdown':
      if (turn !== undefined && output.of === 'stand-still') {
        const seconds = runtime.rules()?.still.seconds ?? 3;
        turn.stillProgress = Math.max(0, Math.min(1, 1 - output.seconds / seconds));
      }
      countdown(live, rig, output.of, output.seconds, output.restarted);
      return;
    case 'count':
      countdown(live, rig, 'count', output.number, false);
      live.sound(rig, countSounds[output.number] ?? 'attention', String(output.number));
      return;
    case 'count-void':
      live.sound(rig, 'attention', 'Stop. We count again');
      return;
    case 'cue-request':
      live.cue(runtime, output.cue, output.words);
      return;
    case 'mark':
      if (output.label === 'step-off') live.nextUp.steppedOff(runtime);
      return;
    case 'weighing':
      if (turn !== undefined) {
        turn.weighing = output.weighing;
        live.nextUp.weighed(runtime, turn, output.weighing);
      }
      live.tellFloor(rig);
      return;
    case 'earlier-weight':
      if (turn !== undefined) {
        if (output.stands) turn.weighing = output.weight;
        else delete turn.weighing;
        turn.weightNote = weightNoteOf(output, turn);
      }
      live.tellFloor(rig);
      return;
    case 'zero':
      live.changed(runtime);
      return;
    case 'verdict':
      live.efforts.verdict(runtime, output);
      return;
    case 'trial-reviewed':
      live.efforts.reviewed(runtime, output.trial, test);
      return;
    case 'alert':
      alert(live, rig, output.code, output.words);
      return;
    case 'question':
      live.ask(questionOf(runtime, output, turn), output.id);
      return;
    case 'question-closed':
      live.answered(`${runtime.journal.capture}-${output.id}`, output.answer);
      return;
    case 'turn-ended':
      live.turns.delete(rig);
      live.room.waiting.delete(rig);
      live.tellDay();
      live.nextUp.soon();
      return;
    case 'live':
      values(live, runtime, output);
      return;
  }
}

/** The effort that is due, as the engine knows it before the store does. */
function effortIs(turn: RunningTurn, effort: Extract<EngineOutput, { kind: 'phase' }>['effort']): void {
  if (effort === undefined) return;
  const { kind, target } = effort;
  const { effort: shown } = turn.view;
  if (kind === 'maximal' ? shown.kind === 'maximal' : target === undefined || shown.share === target.share) return;
  const planned = { kind, ...(target === undefined ? {} : { share: target.share }) };
  turn.view = { ...turn.view, effort: planned, words: effortWords(turn.entry.plan, turn.entry.done, planned) };
}

function countdown(live: LiveLab, rig: string, of: string, left: number, restarted: boolean): void {
  const turn = live.turns.get(rig)?.view.id;
  const message = { type: 'countdown', rig, of, left, restarted };
  live.tell((turn === undefined ? message : { ...message, turn }) as Message, 'moment');
  if (!live.blank) live.hub.tellWalls(message as Message, 'moment');
}

function values(live: LiveLab, runtime: RigRuntime, output: Extract<EngineOutput, { kind: 'live' }>): void {
  const { total, left, right, sample, shareRight } = output;
  live.curves.withThis(runtime.id);
  const telling = live.curves.tellingOf(runtime);
  const open = telling.forces === 'total';
  live.tell(
    {
      type: 'live',
      rig: runtime.id,
      sample,
      forces: telling.forces,
      total: told(total, telling),
      ...(left === undefined || !open ? {} : { left }),
      ...(right === undefined || !open ? {} : { right }),
      ...(shareRight === undefined ? {} : { shareRight }),
      unit: 'N',
      channels: open ? runtime.stream.channelsNow() : [],
    } as Message,
    'moment',
  );
}

function alert(live: LiveLab, rig: string, code: string, words: string): void {
  if (code === 'signal-back') live.clear('signal-lost', rig);
  live.raise({
    severity: code === 'signal-back' ? 'note' : 'warning',
    code,
    words,
    next: nextSteps[code] ?? 'Look at the rig.',
    rig,
  });
}

/** What to do about an alert of the engine, where it is not to look at the rig. */
const nextSteps: Readonly<Record<string, string>> = {
  'pain-stop': 'Open the straps first. Local rules and licensed professionals come before any release.',
  'signal-back': 'Take the zero again if anything was touched.',
};

function questionOf(
  runtime: RigRuntime,
  output: Extract<EngineOutput, { kind: 'question' }>,
  turn: RunningTurn | undefined,
): QuestionView {
  return {
    id: `${runtime.journal.capture}-${output.id}`,
    rig: runtime.id,
    ...(turn === undefined ? {} : { turn: turn.view.id }),
    code: output.code,
    words:
      output.code === 'is-this-the-athlete' && turn !== undefined
        ? `Is this ${turn.view.person.name}? ${unusual[String(output.data?.because)] ?? ''}`.trim()
        : output.words,
    choices: output.answers.map((id) => ({ id, words: answerWords[id] ?? id })),
  };
}

const unusual: Readonly<Record<string, string>> = {
  'body-weight': 'The body weight is not as it was last time.',
  'standing-share': 'The weight is shared between the feet in another way than usual.',
  tension: 'The tension on the bar is not the usual one.',
  'bar-moved': 'The bar stands elsewhere than last time.',
};

const countSounds: Readonly<Record<number, string>> = { 3: 'three', 2: 'two', 1: 'one' };

const answerWords: Readonly<Record<string, string>> = {
  yes: 'Yes',
  no: 'No',
  'not-sure': 'Not sure: go on, look at it again later',
  'take-it': 'Take this as zero',
  'measure-again': 'Measure again',
  counts: 'It counts',
  'does-not-count': 'It does not count',
};
