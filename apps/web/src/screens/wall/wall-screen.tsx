import type { LabId, WallState } from '@sthene/contract';
import { type CSSProperties, useEffect, useState } from 'react';
import { useParams, useSearchParams } from 'react-router';
import { labFrom } from '../../app/lab.ts';
import { NotFound } from '../../app/not-found.tsx';
import { usePageTitle } from '../../app/page-title.ts';
import { readPreference, writePreference } from '../../data/preferences.ts';
import { flashSize, useCueOutput, useWakeLock, useWall, wakeSound } from '../../live/index.ts';
import { liveWords } from '../../words/live.ts';
import { WallControls } from './wall-controls.tsx';
import { WallIdle } from './wall-idle.tsx';
import { WallMark } from './wall-mark.tsx';
import { WallTurn } from './wall-turn.tsx';
import '../../parts/button.css';
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
  return <Wall lab={known} asked={rig} soundAtFirst={sound} key={`${known} ${rig}`} />;
}

function Wall({ lab, asked, soundAtFirst }: { lab: LabId; asked: string; soundAtFirst: boolean }) {
  const [sound, setSound] = useState(soundAtFirst);
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
  const flashWords =
    flash === undefined ? '' : (liveWords.countWords[flash.sound as keyof typeof liveWords.countWords] ?? flash.words);
  const notes = [
    ...(sound && !awake ? [words.noSound] : []),
    ...(wake === 'unavailable' || wake === 'refused' ? [words.mayDim] : []),
  ];
  const controls = (
    <WallControls
      sound={sound}
      onSound={(on) => {
        setSound(on);
        writePreference('wall-sound', on ? 'on' : 'off');
      }}
    />
  );
  if (wall?.blank && open)
    return (
      <main className="wall wall-quiet wall-blank">
        <h1 className="unseen">{words.blank}</h1>
        {mark && <WallMark {...mark} />}
        {controls}
      </main>
    );
  return (
    <main className="wall" data-phase={rig?.phase} data-bar={rig?.jump !== true} data-lost={!open}>
      {rig?.who !== undefined && wall !== undefined ? (
        <WallTurn rig={rig} state={state} />
      ) : (
        <WallIdle asked={asked} mark={mark} state={state} />
      )}
      {notes.length > 0 && <p className="wall-notes">{notes.join(' \u00b7 ')}</p>}
      {controls}
      {flash !== undefined && (
        <div
          className="wall-flash"
          data-sound={flash.sound}
          style={flashSize(flashWords) as CSSProperties}
          role="alert"
        >
          {flashWords}
        </div>
      )}
    </main>
  );
}

const isAsked = ({ rig, letter }: WallState['marks'][number], asked: string): boolean =>
  rig === asked || letter === asked.toUpperCase();
