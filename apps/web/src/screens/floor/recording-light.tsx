import { useEffect, useState } from 'react';
import { deviceNow, type RigLive } from '../../live/index.ts';
import { numberText } from '../../number/format.ts';
import { liveWords as words } from '../../words/live.ts';
import { clockText } from './numbers.ts';

/** Age of the newest confirmed sample from which on the light warns, s. */
const lateAfter = 2;

/** What is safe on disk: lit by confirmations alone, so that it cannot shine while nothing is written. */
export function RecordingLight({ rig, lost }: { rig: RigLive; lost: boolean }) {
  const { confirmed, view } = rig;
  const [now, setNow] = useState(deviceNow);
  useEffect(() => {
    const timer = setInterval(() => setNow(deviceNow()), 500);
    return () => clearInterval(timer);
  }, []);
  const { recording: say } = words;
  const age = confirmed === undefined ? undefined : (confirmed.age + Math.max(0, now - confirmed.at)) / 1000;
  const rate = view?.rate.measured ?? view?.rate.promised;
  const late = lost || age === undefined || age > lateAfter;
  const closed = view?.state === 'closed';
  const state = confirmed === undefined || !confirmed.recording || closed ? 'idle' : late ? 'late' : 'safe';
  return (
    <p className="recording-light small" data-state={state}>
      <i aria-hidden="true" />
      <span>
        {confirmed === undefined
          ? say.unknown
          : confirmed.recording && !closed
            ? late
              ? say.late
              : say.running
            : say.idle}
        {confirmed !== undefined && view !== undefined && (
          <> &middot; {say.safe(clockText(confirmed.samples / view.rate.promised), bytesText(confirmed.bytes))}</>
        )}
        {age !== undefined && state !== 'idle' && <> &middot; {say.age(numberText(age, 1))}</>}
        {rate !== undefined && state !== 'idle' && <> &middot; {words.rate(numberText(rate, 0))}</>}
        {view !== undefined && <> &middot; {view.counts.gaps === 0 ? words.noGaps : words.gaps(view.counts.gaps)}</>}
      </span>
    </p>
  );
}

/** Bytes in the unit that needs the fewest digits. */
function bytesText(bytes: number): string {
  const { units } = words.recording;
  const step = bytes < 1e6 ? 0 : bytes < 1e9 ? 1 : 2;
  return `${numberText(bytes / 1000 ** (step + 1), step === 0 ? 0 : 1)}\u00a0${units[step]}`;
}
