import type { CommandKind, LabId } from '@sthene/contract';
import { useRef, useState } from 'react';
import {
  type CommandExtra,
  deviceNow,
  inEffort,
  type LiveState,
  type LiveStore,
  type RigLive,
  type Unsent,
} from '../../live/index.ts';
import { testTitle } from '../trial/test-title.ts';
import { cueArmed, mainAct, otherActs, readySooner, tooSoon } from './acts.ts';
import { useEntryActs } from './use-entry-acts.ts';
import { useFloorKeys } from './use-floor-keys.ts';

/** What lies over the Floor. `stopped`: the effort was told to stop when the pain stop was asked for. */
export type FloorDialog =
  | { readonly kind: 'pain'; readonly stopped: boolean }
  | { readonly kind: 'note' | 'keys' | 'athlete' | 'setup' | 'leave' }
  | { readonly kind: 'judge'; readonly decision: 'counts' | 'does-not-count'; readonly trial: string };

/** Everything that can be done on the Floor, for buttons and keys alike. */
export function useFloor(lab: LabId, id: string, rig: RigLive, state: LiveState, store: LiveStore) {
  const [unsent, setUnsent] = useState<Unsent>();
  const [dialog, setDialog] = useState<FloorDialog>();
  const pressedAt = useRef(Number.NEGATIVE_INFINITY);
  const { floor, countdown } = rig;
  const blank = state.wallBlank;
  const question = state.questions.find((one) => one.rig === id);
  const entry = state.day?.entries.find((one) => one.id === floor?.turn?.entry);
  const due = state.day?.next.find((one) => one.rig === id);
  const next = state.day?.entries.find((one) => one.id === due?.entry);
  // Whoever is on the rig is not called to it, but may go on with another test.
  const own = next !== undefined && next.person.id === entry?.person.id;
  const nextName = next === undefined || own ? undefined : next.person.name;
  const nextTest = own && next.id !== entry?.id ? testTitle(next.test) : undefined;
  const nothingLeft = entry !== undefined && entry.remaining.length === 0;
  const resting = countdown?.of === 'rest' ? countdown.left : (entry?.rest?.left ?? 0);
  const restLeft = nothingLeft ? 0 : resting;
  const nextSooner = readySooner(next, entry);
  const questionOpen = question !== undefined;
  const input = floor && { floor, nextName, nextTest, nextSooner, questionOpen, restLeft, nothingLeft };
  const main = input && mainAct(input);
  const others = input === undefined ? [] : otherActs(input);
  const entryActs = useEntryActs(lab, entry, () => setDialog(undefined));

  const send = (kind: CommandKind, extra: CommandExtra = {}): boolean => {
    const reason = store.command(id, kind, extra);
    setUnsent(reason);
    return reason === undefined;
  };
  const press = () => {
    const now = deviceNow();
    if (main?.kind === undefined || tooSoon(main.kind, { phaseAt: rig.phaseAt, pressedAt: pressedAt.current }, now))
      return;
    pressedAt.current = now;
    send(main.kind);
  };
  const stop = () => {
    if (floor?.turn !== undefined) send('abort');
  };
  const askPain = () => {
    if (floor?.turn === undefined) return;
    // Stopping does not wait for a confirmation; only the record does.
    const running = floor.phase === 'cue' || inEffort(floor.phase);
    setDialog({ kind: 'pain', stopped: running && send('abort') });
  };
  const toggleHold = () => {
    if (floor?.turn !== undefined) send(floor.held ? 'resume' : 'hold');
  };
  const toggleWall = () => {
    send(blank ? 'show-wall' : 'blank-wall');
  };
  const other = (kind: CommandKind) => {
    if (others.some((act) => act.kind === kind)) send(kind);
  };
  const askNote = () => {
    if (entry !== undefined) setDialog({ kind: 'note' });
  };
  const askAthlete = () => {
    if (state.day !== undefined) setDialog({ kind: 'athlete' });
  };
  const dismiss = () => {
    setUnsent(undefined);
    store.forgetRefusal();
  };
  useFloorKeys(
    {
      main: press,
      stop,
      hold: toggleHold,
      pain: askPain,
      zero: () => other('zero'),
      skip: () => other('skip'),
      same: () => {
        if (floor?.phase === 'set-up') entryActs.sameSetup();
      },
      athlete: askAthlete,
      note: askNote,
      take: () => store.takeControls(),
      blank: toggleWall,
      keys: () => setDialog({ kind: 'keys' }),
    },
    { cueArmed: floor !== undefined && cueArmed(floor), running: floor?.phase === 'cue' || inEffort(floor?.phase) },
  );
  return {
    acts: { send, press, stop, askPain, toggleHold, toggleWall, askNote, askAthlete, dismiss, ...entryActs },
    main,
    others,
    question,
    entry,
    due,
    next,
    restLeft,
    blank,
    unsent,
    dialog,
    setDialog,
  };
}

export type FloorModel = ReturnType<typeof useFloor>;
