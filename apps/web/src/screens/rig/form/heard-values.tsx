import type { SourceListening } from '@sthene/contract';
import { decimalsFor, numberText, unitText } from '../../../number/format.ts';
import { rigWords } from '../../../words/rig.ts';

const columns = ['last', 'mean', 'sd', 'min', 'max'] as const;

/** Values of each channel as decoded, over the last two seconds. */
export function HeardValues({ channels }: { channels: SourceListening['channels'] }) {
  const t = rigWords.listen;
  if (channels.length === 0) return null;
  return (
    <>
      <h3>{t.values}</h3>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard */}
      <section className="table-scroll" tabIndex={0} aria-label={t.values}>
        <table className="channel-table">
          <thead>
            <tr>
              <th scope="col">{t.head.channel}</th>
              {columns.map((one) => (
                <th key={one} scope="col" className="end">
                  {t.head[one]}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {channels.map((channel) => (
              <tr key={channel.name}>
                <th scope="row">
                  {channel.name} <span className="small soft">{unitText(channel.unit)}</span>
                  {channel.made && <span className="small soft"> {t.made}</span>}
                  {channel.saturated && <span className="small field-error"> {t.saturated}</span>}
                </th>
                {columns.map((one) => (
                  <td key={one} className="end number">
                    {numberText(
                      channel[one],
                      Math.max(1, decimalsFor(channel.unit, channel[one], { sampleRate: 1000 })),
                    )}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </>
  );
}
