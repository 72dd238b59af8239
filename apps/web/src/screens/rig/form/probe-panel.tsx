import type { LabId, SourceDescriptionDocument, SourceProbe } from '@sthene/contract';
import { useMutation } from '@tanstack/react-query';
import { useEffect, useState } from 'react';
import { probeSource } from '../../../data/rigs.ts';
import { numberText } from '../../../number/format.ts';
import { ProblemCard } from '../../../parts/problem-card.tsx';
import { rigWords } from '../../../words/rig.ts';
import { RigStateMark } from '../standing-mark.tsx';
import { hexRows } from './hex-rows.ts';

interface ProbeProps {
  readonly lab: LabId;
  /** The complete description; absent while it has faults. */
  readonly description: SourceDescriptionDocument | undefined;
  onUse(description: SourceDescriptionDocument): void;
}

const seconds = 2;

/** Listens to the source as it is described now: bytes, decoded values, layouts that would fit. */
export function ProbePanel({ lab, description, onUse }: ProbeProps) {
  const t = rigWords.probe;
  const [going, setGoing] = useState(false);
  const text = JSON.stringify(description);
  const probe = useMutation({
    mutationFn: (asked: SourceDescriptionDocument) => probeSource(lab, asked, seconds),
  });
  const { mutate, isPending, isError, submittedAt } = probe;
  // Again when it has ended and the description stands; a refusal ends it, so that no device is asked in vain for ever.
  useEffect(() => {
    if (!going || isPending || isError || text === undefined) return;
    const timer = setTimeout(() => mutate(JSON.parse(text) as SourceDescriptionDocument), submittedAt === 0 ? 0 : 600);
    return () => clearTimeout(timer);
  }, [going, isPending, isError, submittedAt, text, mutate]);
  const old = probe.data !== undefined && JSON.stringify(probe.variables) !== text;
  return (
    <aside className="panel probe" aria-labelledby="probe">
      <h2 id="probe">{t.title}</h2>
      <p className="small soft">{t.help}</p>
      <div className="acts">
        <button
          type="button"
          className="button main"
          disabled={description === undefined || isPending}
          onClick={() => description && mutate(description)}
        >
          {isPending ? t.listening : t.act}
        </button>
        <label className="check-line">
          <input type="checkbox" checked={going} onChange={(event) => setGoing(event.target.checked)} />
          {t.keep}
        </label>
      </div>
      {description === undefined && <p className="soft">{t.first}</p>}
      {isError && <ProblemCard error={probe.error} />}
      {probe.data && (
        <div className="probe-found" data-old={old}>
          {old && <p className="small soft">{t.old}</p>}
          <Found found={probe.data} onUse={onUse} />
        </div>
      )}
    </aside>
  );
}

function Found({ found, onUse }: { found: SourceProbe; onUse: ProbeProps['onUse'] }) {
  const t = rigWords.probe;
  const rate = found.measuredRate === undefined ? '' : t.at(numberText(found.measuredRate, 1));
  return (
    <>
      <RigStateMark state={found.state} />
      <p>{found.words}</p>
      <p className="small">{t.facts(found.samples, rate, found.missing, found.faults)}</p>
      <h3>{t.values}</h3>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard */}
      <section className="table-scroll" tabIndex={0} aria-label={t.values}>
        <table className="channel-table">
          <thead>
            <tr>
              {(['channel', 'mean', 'sd', 'low', 'high'] as const).map((one) => (
                <th key={one} scope="col" className={one === 'channel' ? undefined : 'end'}>
                  {t.head[one]}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {found.channels.map(({ name, unit, mean, sd, min, max }) => (
              <tr key={name}>
                <th scope="row">
                  {name} <span className="small soft">{unit}</span>
                </th>
                {[mean, sd, min, max].map((value, i) => (
                  <td key={i} className="end number">
                    {numberText(value, 1)}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <h3>{t.bytes}</h3>
      {found.bytes === undefined ? <p className="small soft">{t.noBytes}</p> : <Bytes hex={found.bytes} />}
      {found.candidates.length > 0 && (
        <>
          <h3>{t.candidates}</h3>
          <ul className="candidates">
            {found.candidates.map(({ words, description }) => (
              <li key={JSON.stringify(description)}>
                <span>{words}</span>
                <button
                  type="button"
                  className="button"
                  aria-label={`${t.use}: ${words}`}
                  onClick={() => onUse(description)}
                >
                  {t.use}
                </button>
              </li>
            ))}
          </ul>
        </>
      )}
    </>
  );
}

function Bytes({ hex }: { hex: string }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard
    <section className="bytes" tabIndex={0} aria-label={rigWords.probe.bytes}>
      <pre className="number small">
        {hexRows(hex)
          .map(({ at, bytes, text }) => `${at}  ${bytes.padEnd(47)}  ${text}`)
          .join('\n')}
      </pre>
    </section>
  );
}
