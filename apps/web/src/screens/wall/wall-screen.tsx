import type { LabId } from '@sthene/contract';
import { useEffect, useRef, useState } from 'react';
import { useParams } from 'react-router';
import { labFrom } from '../../app/lab.ts';
import { NotFound } from '../../app/not-found.tsx';
import { usePageTitle } from '../../app/page-title.ts';
import { deviceNow, isDue, useWall, type WallLive } from '../../live/index.ts';
import { liveWords } from '../../words/live.ts';
import { clockText } from '../floor/numbers.ts';
import { WallBar } from './wall-bar.tsx';
import { wallForce, wallLine, wallNumber } from './wall-words.ts';
import './wall.css';

const { wallWords: words } = liveWords;
/** How long a cue fills the wall, ms; cues come a second apart, far below three flashes a second. */
const flashFor = 600;
/** The device with the controls knows better when it was heard; the wall speaks after it, ms. */
const speakAfter = 300;

/** What the athlete sees at one rig. It opens by its address, needs no hand, and comes back by itself. */
export function WallScreen() {
  const { lab, rig } = useParams();
  usePageTitle(liveWords.wall);
  const known = labFrom(lab);
  if (known === undefined || rig === undefined) return <NotFound />;
  return <Wall lab={known} rig={rig} key={`${known} ${rig}`} />;
}

function Wall({ lab, rig: asked }: { lab: LabId; rig: string }) {
  const { store, state } = useWall(lab);
  const rig = state.wall?.rigs.find((one) => one.rig === asked || one.letter === asked.toUpperCase());
  const cue = rig === undefined ? undefined : state.cues[rig.rig];
  const last = useRef<string>(undefined);
  const [flash, setFlash] = useState<WallLive['cues'][string]>();
  useEffect(() => {
    if (cue === undefined || !isDue({ ...cue, expires: 1000 }, last.current, store.link.stationNow)) return;
    last.current = cue.id;
    setFlash(cue);
    requestAnimationFrame(() =>
      requestAnimationFrame(() => {
        const seen = deviceNow();
        setTimeout(() => store.sounded(cue.id, seen), speakAfter);
      }),
    );
    const timer = setTimeout(() => setFlash(undefined), flashFor);
    return () => {
      clearTimeout(timer);
      setFlash(undefined);
    };
  }, [cue, store]);
  const { wall } = state;
  if (wall?.blank && state.link === 'open')
    return (
      <main className="wall">
        <h1 className="unseen">{words.blank}</h1>
      </main>
    );
  if (wall === undefined || rig === undefined)
    return (
      <main className="wall wall-quiet">
        <h1>{wall === undefined ? (state.link === 'lost' ? words.lost : words.waiting) : words.noRig}</h1>
      </main>
    );
  const trace = state.traces[rig.rig];
  const number = wallNumber(rig, trace);
  return (
    <main className="wall" data-phase={rig.phase} data-lost={state.link !== 'open'}>
      <section className="wall-words">
        <header>
          <h1>{rig.who ?? words.nobody}</h1>
          <p className="wall-what">{rig.what}</p>
        </header>
        {number !== undefined && (
          <div>
            <p className="wall-number">{number}</p>
            <p className="wall-unit">
              {words.unit}
              {rig.result?.best && <b> &middot; {words.newBest}</b>}
            </p>
          </div>
        )}
        <footer>
          <p className="wall-line" role="status" data-verdict={state.link === 'open' ? rig.result?.verdict : undefined}>
            {state.link === 'open' ? wallLine(rig) : words.lost}
          </p>
          <WallRest state={state} rig={rig.rig} resting={rig.phase === 'rest'} />
        </footer>
      </section>
      <WallBar rig={rig} force={wallForce(rig, trace)} />
      {flash !== undefined && (
        <div className="wall-flash" data-sound={flash.sound} role="alert">
          {flash.sound in liveWords.countWords
            ? liveWords.countWords[flash.sound as keyof typeof liveWords.countWords]
            : flash.words}
        </div>
      )}
    </main>
  );
}

/** The rest of whoever is on the rig, and who is next. */
function WallRest({ state, rig, resting }: { state: WallLive; rig: string; resting: boolean }) {
  const [now, setNow] = useState(deviceNow);
  useEffect(() => {
    const timer = setInterval(() => setNow(deviceNow()), 500);
    return () => clearInterval(timer);
  }, []);
  const countdown = state.countdowns[rig];
  const next = state.wall?.next.find((one) => one.rig === rig);
  const rest = resting && countdown?.of === 'rest' ? countdown.left - (now - countdown.at) / 1000 : undefined;
  const nextRest = next?.restLeft === undefined ? 0 : next.restLeft - (now - state.wallAt) / 1000;
  return (
    <p className="wall-rest">
      {rest !== undefined && rest > 0 && (
        <span>
          {words.rest} <b className="number">{clockText(rest)}</b>
        </span>
      )}
      {next !== undefined && (
        <span>
          {words.next}: {next.who}
          {nextRest > 0 && <b className="number"> {clockText(nextRest)}</b>}
        </span>
      )}
    </p>
  );
}
