import type { RigView } from '@sthene/contract';
import type { RigLive } from '../../live/index.ts';
import { quantityText } from '../../number/format.ts';
import { rigWords } from '../../words/rig.ts';

const columns = ['now', 'zero', 'noise'] as const;

/** What each channel reads now, its zero, its noise; sides are told by letter, dash and colour. */
export function ChannelTable({ rig, now }: { rig: RigView; now: RigLive['now'] }) {
  const t = rigWords.channels;
  const text = (value: number | undefined, unit: string) =>
    value === undefined
      ? rigWords.check.none
      : quantityText(value, unit, { sampleRate: rig.rate.promised, noise: 0.1 });
  return (
    <section className="panel" aria-labelledby="channels">
      <h2 id="channels">{t.title}</h2>
      {rig.channels.length === 0 ? (
        <p className="soft">{t.none}</p>
      ) : (
        <>
          {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard */}
          <section className="table-scroll" tabIndex={0} aria-label={t.title}>
            <table className="channel-table">
              <thead>
                <tr>
                  <th scope="col">{t.head.name}</th>
                  <th scope="col">{t.head.side}</th>
                  {columns.map((one) => (
                    <th key={one} scope="col" className="end">
                      {t.head[one]}
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {rig.channels.map(({ name, plate, side, axis, unit, zero, noise, second }) => {
                  const value = now?.channels.find((one) => one.name === name)?.value;
                  return (
                    <tr key={name}>
                      <th scope="row">
                        {name}{' '}
                        <span className="small soft">
                          {!name.includes(plate) && plate} {axis}
                        </span>
                        {second?.saturated && <span className="small field-error"> {t.saturated}</span>}
                      </th>
                      <td>
                        <abbr className="side" data-side={side} title={t.sideWords[side]}>
                          {t.sides[side]}
                        </abbr>
                      </td>
                      <td className="end number">
                        {text(value ?? (second === undefined ? undefined : second.mean - (zero ?? 0)), unit)}
                      </td>
                      <td className="end number">{text(zero, unit)}</td>
                      <td className="end number">
                        {text(noise ?? second?.sd, unit)}
                        {second?.mains && (
                          <span className="small soft mains">
                            {t.mains(second.mains.frequency, text(second.mains.amplitude, unit))}
                          </span>
                        )}
                      </td>
                    </tr>
                  );
                })}
              </tbody>
            </table>
          </section>
          <p className="small soft">{t.help}</p>
        </>
      )}
    </section>
  );
}
