import type { LabId, SourceDescriptionDocument, SourceListening } from '@sthene/contract';
import { useState } from 'react';
import { ProblemCard } from '../../../parts/problem-card.tsx';
import { rigWords } from '../../../words/rig.ts';
import { Candidates } from './candidates.tsx';
import { HeardFacts } from './heard-facts.tsx';
import { HeardValues } from './heard-values.tsx';
import { hexRows } from './hex-rows.ts';
import { ListeningMark } from './listening-mark.tsx';
import { useListening } from './use-listening.ts';

interface ListenProps {
  readonly lab: LabId;
  /** The description as it stands, complete or not. */
  readonly document: unknown;
  onUse(description: SourceDescriptionDocument): void;
  onRate(rate: number): void;
}

/** Listens to the source while it is being described: bytes, frames, values, layouts that would fit. */
export function ListenPanel({ lab, document, onUse, onRate }: ListenProps) {
  const t = rigWords.listen;
  const [going, setGoing] = useState(false);
  const { view, error } = useListening(lab, document, going);
  return (
    <aside className="panel probe" aria-labelledby="listen">
      <h2 id="listen">{t.title}</h2>
      <p className="small soft">{t.help}</p>
      <div className="acts">
        <button type="button" className={going ? 'button' : 'button main'} onClick={() => setGoing(!going)}>
          {going ? t.stop : t.act}
        </button>
      </div>
      {going && error !== undefined && <ProblemCard error={error} />}
      {going && view === undefined && error === undefined && (
        <p className="soft" role="status">
          {t.begins}
        </p>
      )}
      {view && error === undefined && (
        <div className="probe-found" data-old={!going}>
          {!going && <p className="small soft">{t.over}</p>}
          <Found view={view} onUse={onUse} onRate={onRate} />
        </div>
      )}
    </aside>
  );
}

function Found({ view, onUse, onRate }: { view: SourceListening } & Pick<ListenProps, 'onUse' | 'onRate'>) {
  const t = rigWords.listen;
  return (
    <>
      <ListeningMark view={view} />
      {/* Where samples or bytes come the mark says it all. */}
      {(view.trouble || !['bytes', 'measuring'].includes(view.state)) && <p>{view.words}</p>}
      {view.trouble && (
        <div className="problem" role="alert">
          <p>{view.trouble.means}</p>
          <p>{view.trouble.next}</p>
          <p className="small soft number">{view.trouble.code}</p>
        </div>
      )}
      <HeardFacts view={view} onRate={onRate} />
      <Candidates candidates={view.candidates} onUse={onUse} />
      <HeardValues channels={view.channels} />
      <h3>{t.bytes}</h3>
      {view.bytes === undefined ? (
        <p className="small soft">{t.noBytes}</p>
      ) : view.bytes.received === 0 ? (
        <p className="small soft">{t.nothing}</p>
      ) : (
        <Bytes hex={view.bytes.last.slice(-shown)} />
      )}
    </>
  );
}

/** Digits of the bytes that are shown: 256 bytes. */
const shown = 512;

function Bytes({ hex }: { hex: string }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard
    <section className="bytes" tabIndex={0} aria-label={rigWords.listen.bytes}>
      <pre className="number small">
        {hexRows(hex)
          .map(({ at, bytes, text }) => `${at}  ${bytes.padEnd(47)}  ${text}`)
          .join('\n')}
      </pre>
    </section>
  );
}
