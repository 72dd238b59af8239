import type { CommandKind, LabId } from '@sthene/contract';
import { useState } from 'react';
import {
  type CommandExtra,
  deviceNow,
  type LiveState,
  type LiveStore,
  type RigLive,
  type Unsent,
} from '../../live/index.ts';
import { useSay } from '../../parts/status.tsx';
import { liveWords as words } from '../../words/live.ts';
import { mainAct, otherActs, tooSoon } from './acts.ts';
import { useFloorKeys } from './use-floor-keys.ts';
import { useNote } from './use-note.ts';

/** What lies over the Floor. `stopped`: the effort was told to stop when the pain stop was asked for. */
export type FloorDialog =
  | { readonly kind: 'pain'; readonly stopped: boolean }
  | { readonly kind: 'note' }
  | { readonly kind: 'keys' }
  | { readonly kind: 'judge'; readonly decision: 'counts' | 'does-not-count'; readonly trial: string };

/** Everything that can be done on the Floor, for buttons and keys alike. */
export function useFloor(lab: LabId, id: string, rig: RigLive, state: LiveState, store: LiveStore) {
  const [unsent, setUnsent] = useState<Unsent>();
  const [dialog, setDialog] = useState<FloorDialog>();
  const [blank, setBlank] = useState(false);
  const say = useSay();
  const note = useNote(lab, state.day);
  const { floor, countdown } = rig;
  const question = state.questions.find((one) => one.rig === id);
  const entry = state.day?.entries.find((one) => one.id === floor?.turn?.entry);
  const due = state.day?.next.find((one) => one.rig === id)?.entry;
  const nextName = state.day?.entries.find((one) => one.id === due)?.person.name;
  const restLeft = countdown?.of === 'rest' ? countdown.left : (entry?.rest?.left ?? 0);
  const input = floor && { floor, nextName, questionOpen: question !== undefined, restLeft };
  const main = input && mainAct(input);
  const others = input === undefined ? [] : otherActs(input);

  const send = (kind: CommandKind, extra: CommandExtra = {}): boolean => {
    const reason = store.command(id, kind, extra);
    setUnsent(reason);
    return reason === undefined;
  };
  const press = () => {
    if (main?.kind === undefined || tooSoon(rig.phaseAt, deviceNow())) return;
    send(main.kind);
  };
  const stop = () => {
    if (floor?.turn !== undefined) send('abort');
  };
  const askPain = () => {
    if (floor?.turn === undefined) return;
    // Stopping does not wait for a confirmation; only the record does.
    const running = floor.phase === 'cue' || floor.phase === 'pull';
    setDialog({ kind: 'pain', stopped: running && send('abort') });
  };
  const toggleHold = () => {
    if (floor?.turn !== undefined) send(floor.held ? 'resume' : 'hold');
  };
  const toggleWall = () => {
    if (send(blank ? 'show-wall' : 'blank-wall')) setBlank(!blank);
  };
  const other = (kind: CommandKind) => {
    if (others.some((act) => act.kind === kind)) send(kind);
  };
  const keepNote = (text: string) => {
    setDialog(undefined);
    if (entry === undefined || text === '') return;
    note.mutate(
      { entry: entry.id, text },
      { onSuccess: () => say(words.note.kept), onError: () => say(words.note.failed) },
    );
  };
  const askNote = () => {
    if (entry !== undefined) setDialog({ kind: 'note' });
  };
  const dismiss = () => {
    setUnsent(undefined);
    store.forgetRefusal();
  };
  useFloorKeys({
    main: press,
    stop,
    letters: {
      h: toggleHold,
      p: askPain,
      z: () => other('zero'),
      s: () => other('skip'),
      n: askNote,
      c: () => store.takeControls(),
      b: toggleWall,
      '?': () => setDialog({ kind: 'keys' }),
    },
  });
  return {
    acts: { send, press, stop, askPain, toggleHold, toggleWall, keepNote, askNote, dismiss },
    main,
    others,
    question,
    entry,
    restLeft,
    blank,
    unsent,
    dialog,
    setDialog,
  };
}

export type FloorModel = ReturnType<typeof useFloor>;
