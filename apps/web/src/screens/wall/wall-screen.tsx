import type { LabId, WallState } from '@sthene/contract';
import { useEffect } from 'react';
import { useParams, useSearchParams } from 'react-router';
import { labFrom } from '../../app/lab.ts';
import { NotFound } from '../../app/not-found.tsx';
import { usePageTitle } from '../../app/page-title.ts';
import { readPreference } from '../../data/preferences.ts';
import { useCueOutput, useWakeLock, useWall, wakeSound } from '../../live/index.ts';
import { liveWords } from '../../words/live.ts';
import { WallIdle } from './wall-idle.tsx';
import { WallMark } from './wall-mark.tsx';
import { WallTurn } from './wall-turn.tsx';
import './wall.css';

const { wallWords: words } = liveWords;
/** How long a cue fills the wall, ms; cues come a second apart, far below three flashes a second. */
const flashFor = 600;
/** A device that sounds knows better when it was heard; a silent wall speaks after it, ms. */
const silentAfter = 300;

/** What the athlete sees at one rig. It opens by its address, needs no hand, and comes back by itself. */
export function WallScreen() {
  const { lab, rig } = useParams();
  const [query] = useSearchParams();
  usePageTitle(liveWords.wall);
  const known = labFrom(lab);
  if (known === undefined || rig === undefined) return <NotFound />;
  const sound = (query.get('sound') ?? readPreference('wall-sound')) !== 'off';
  return <Wall lab={known} asked={rig} sound={sound} key={`${known} ${rig}`} />;
}

function Wall({ lab, asked, sound }: { lab: LabId; asked: string; sound: boolean }) {
  const { store, state } = useWall(lab);
  const { wall } = state;
  const mark = wall?.marks.find((one) => isAsked(one, asked));
  const rig = wall?.rigs.find((one) => one.rig === mark?.rig);
  const open = state.link === 'open';
  const wake = useWakeLock(wall?.open === true);
  // Nobody touches a wall: where the browser allows sound without a hand, it is awake from now on.
  useEffect(() => {
    if (sound) wakeSound();
  }, [sound]);
  const { flash, awake } = useCueOutput(mark === undefined ? undefined : state.cues[mark.rig], {
    switches: { tone: sound, voice: false, flash: true },
    letter: mark?.letter ?? 'A',
    silentAfter,
    flashFor,
    stationNow: () => store.link.stationNow,
    heard: (id, heard) => store.sounded(id, heard),
  });
  const notes = [
    ...(sound && !awake ? [words.noSound] : []),
    ...(wake === 'unavailable' || wake === 'refused' ? [words.mayDim] : []),
  ];
  if (wall?.blank && open)
    return (
      <main className="wall wall-quiet wall-blank">
        <h1 className="unseen">{words.blank}</h1>
        {mark && <WallMark {...mark} />}
      </main>
    );
  return (
    <main className="wall" data-phase={rig?.phase} data-lost={!open}>
      {rig?.who !== undefined && wall !== undefined ? (
        <WallTurn rig={rig} state={state} />
      ) : (
        <WallIdle asked={asked} mark={mark} state={state} />
      )}
      {notes.length > 0 && <p className="wall-notes">{notes.join(' \u00b7 ')}</p>}
      {flash !== undefined && (
        <div className="wall-flash" data-sound={flash.sound} role="alert">
          {liveWords.countWords[flash.sound as keyof typeof liveWords.countWords] ?? flash.words}
        </div>
      )}
    </main>
  );
}

const isAsked = ({ rig, letter }: WallState['marks'][number], asked: string): boolean =>
  rig === asked || letter === asked.toUpperCase();
