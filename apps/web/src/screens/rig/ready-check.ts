import type { RigView } from '@sthene/contract';
import { durationText } from '../../number/duration.ts';
import { numberText } from '../../number/format.ts';
import { rigWords } from '../../words/rig.ts';
import { deviceLine, knownMassLine, noiseLine, rangeLine, zeroLine } from './ready-rows.ts';

/** `good`, `look` (somebody should look at it), `bad` (do not test like this), `open` (cannot be said yet). */
export type Standing = 'good' | 'look' | 'bad' | 'open';

export interface ReadyRow {
  readonly id: string;
  readonly title: string;
  readonly standing: Standing;
  readonly value: string;
  readonly words: string;
}

/** What is safe on disk: age of the newest confirmed sample in ms at receipt, and how long ago that was heard, ms. */
export interface ConfirmedNow {
  readonly recording: boolean;
  readonly age: number;
  readonly heard: number;
}

/** Confirmed samples older than this are late, ms: the journal syncs at least every 100 ms, a message takes its time. */
const lateAfter = 1000;
/** From so long without a sample on its age is shown, ms. */
const silentAfter = 1000;
/** Disk is warned of by the station; under this it is bad, s. */
const diskLeast = 15 * 60;

/** Do the plates measure? Each line with a standing, a value and what it means. */
export function readyCheck(rig: RigView, confirmed?: ConfirmedNow): ReadyRow[] {
  const t = rigWords.check;
  const row = (id: keyof typeof t.titles, standing: Standing, value: string, words: string): ReadyRow => ({
    id,
    title: t.titles[id],
    standing,
    value,
    words,
  });
  return [
    row('state', stateStanding(rig), stateValue(rig), rig.words),
    row('device', ...deviceLine(rig)),
    rateRow(rig, row),
    row('noise', ...noiseLine(rig)),
    row('zero', ...zeroLine(rig)),
    row('range', ...rangeLine(rig)),
    countsRow(rig, row),
    confirmedRow(rig, confirmed, row),
    diskRow(rig, row),
    row(
      'clock',
      rig.state === 'closed'
        ? 'open'
        : { good: 'good' as const, old: 'look' as const, none: 'look' as const }[rig.clock.evidence],
      rig.clock.residual === undefined
        ? t.evidence[rig.clock.evidence]
        : `${t.evidence[rig.clock.evidence]}, ${numberText(rig.clock.residual * 1000, 2)}\u00a0ms`,
      rig.clock.words,
    ),
    row('known-mass', ...knownMassLine(rig)),
  ];
}

type Row = (id: keyof typeof rigWords.check.titles, standing: Standing, value: string, words: string) => ReadyRow;

/** The state, and for how long nothing has come where that is worth a word. */
function stateValue({ state, lastSample }: RigView): string {
  const silent = lastSample !== undefined && lastSample > silentAfter && state !== 'closed';
  return silent
    ? `${rigWords.states[state]}, ${rigWords.check.lastSample(durationText(lastSample / 1000))}`
    : rigWords.states[state];
}

const stateStanding = ({ state }: RigView): Standing =>
  state === 'measuring'
    ? 'good'
    : state === 'closed'
      ? 'open'
      : state === 'starting' || state === 'quiet'
        ? 'look'
        : 'bad';

function rateRow({ rate }: RigView, row: Row): ReadyRow {
  const t = rigWords.check;
  const promised = numberText(rate.promised, Number.isInteger(rate.promised) ? 0 : 2);
  if (rate.measured === undefined) return row('rate', 'open', t.promised(promised), t.rateNotYet);
  const measured =
    rate.uncertainty === undefined
      ? numberText(rate.measured, 2)
      : `${numberText(rate.measured, 2)} \u00b1\u00a0${numberText(rate.uncertainty, 2)}`;
  return row(
    'rate',
    rate.differs ? 'look' : 'good',
    `${measured}\u00a0Hz`,
    rate.differs ? t.rateDiffers(promised) : t.rateAgrees(promised),
  );
}

function countsRow({ counts, state }: RigView, row: Row): ReadyRow {
  const t = rigWords.check;
  const faults = counts.doubled + counts.late + counts.swapped + counts.checksum + counts.unreadable;
  if (state === 'closed' || counts.samples === 0) return row('counts', 'open', t.none, t.countsNotYet);
  if (counts.gaps + counts.missing + faults === 0)
    return row('counts', 'good', t.countsValue(0, 0), t.countsGood(numberText(counts.samples, 0)));
  return row(
    'counts',
    'look',
    t.countsValue(counts.gaps, faults),
    `${rigWords.counts.words(counts)} ${rigWords.counts.kept}`,
  );
}

function confirmedRow({ state }: RigView, confirmed: ConfirmedNow | undefined, row: Row): ReadyRow {
  const t = rigWords.check;
  if (state === 'closed' || confirmed === undefined) return row('confirmed', 'open', t.none, t.confirmedNotYet);
  const age = confirmed.age + confirmed.heard;
  const value = `${numberText(age, 0)}\u00a0ms`;
  return age > lateAfter
    ? row('confirmed', 'bad', value, t.confirmedLate)
    : row('confirmed', 'good', value, t.confirmedGood);
}

function diskRow({ disk }: RigView, row: Row): ReadyRow {
  const t = rigWords.check;
  if (disk.secondsLeft === undefined) return row('disk', disk.warning ? 'look' : 'open', t.none, t.diskNotYet);
  const value = durationText(disk.secondsLeft);
  const words = t.diskRate(numberText(disk.bytesPerSecond / 1000, 0));
  if (disk.secondsLeft < diskLeast) return row('disk', 'bad', value, `${words} ${t.diskFull}`);
  return row('disk', disk.warning ? 'look' : 'good', value, words);
}
