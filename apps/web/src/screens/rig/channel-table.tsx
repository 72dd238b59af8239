import type { RigView } from '@sthene/contract';
import { quantityText } from '../../number/format.ts';
import { rigWords } from '../../words/rig.ts';

/** Zero and noise of each channel; sides are told by letter, dash and colour. */
export function ChannelTable({ rig }: { rig: RigView }) {
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
        <div className="table-scroll">
          <table className="channel-table">
            <thead>
              <tr>
                {(['name', 'side', 'zero', 'noise'] as const).map((one) => (
                  <th key={one} scope="col" className={one === 'zero' || one === 'noise' ? 'end' : undefined}>
                    {t.head[one]}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {rig.channels.map((channel) => (
                <tr key={channel.name}>
                  <th scope="row">
                    {channel.name}{' '}
                    <span className="small soft">
                      {channel.plate !== channel.name && channel.plate} {channel.axis}
                    </span>
                  </th>
                  <td>
                    <abbr className="side" data-side={channel.side} title={t.sideWords[channel.side]}>
                      {t.sides[channel.side]}
                    </abbr>
                  </td>
                  <td className="end number">{text(channel.zero, channel.unit)}</td>
                  <td className="end number">{text(channel.noise, channel.unit)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}
