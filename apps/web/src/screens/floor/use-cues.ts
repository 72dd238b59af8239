import { type CueOutput, type LiveStore, type RigLive, useCueOutput } from '../../live/index.ts';
import { useSwitch } from './screen-settings.tsx';

/** How long the flash of a cue stands, ms. */
const flashFor = 450;
/** The device with the controls speaks for a silent cue at once; any other only where that one does not, ms. */
const othersAfter = 300;

/** The cues of a rig at this Floor, as this device is set. */
export function useCues(
  store: LiveStore,
  { cue, view }: RigLive,
): CueOutput<NonNullable<RigLive['cue']>> & {
  readonly toneOn: boolean;
} {
  const [tone] = useSwitch('cue-sound', true);
  const [voice] = useSwitch('cue-voice', false);
  const [flash] = useSwitch('cue-flash', true);
  const output = useCueOutput(cue, {
    switches: { tone, voice, flash },
    letter: view?.letter ?? 'A',
    silentAfter: store.holdsControls ? 0 : othersAfter,
    flashFor,
    stationNow: () => store.link.stationNow,
    heard: (id, heard) => store.sounded(id, heard),
  });
  return { ...output, toneOn: tone };
}
