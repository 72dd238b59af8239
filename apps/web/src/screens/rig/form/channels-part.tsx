import { Icon } from '../../../parts/icon.tsx';
import { rigWords } from '../../../words/rig.ts';
import { IdentityFields } from './identity-fields.tsx';
import { TextField } from './parts.tsx';
import { type ChannelForm, channelForm } from './source-form.ts';
import { SurfaceFields } from './surface-fields.tsx';

interface ChannelsProps {
  readonly channels: readonly ChannelForm[];
  /** The source brings its own channels. */
  readonly own: boolean;
  onChange(channels: readonly ChannelForm[]): void;
}

const numbers = ['scale', 'offset', 'low', 'high'] as const;
const paths = { scale: 'scale', offset: 'offset', low: 'rawRange.0', high: 'rawRange.1' } as const;

/** What each channel is and how its counts become force. */
export function ChannelsPart({ channels, own, onChange }: ChannelsProps) {
  const t = rigWords.channel;
  return (
    <section className="panel" aria-labelledby="source-channels">
      <h2 id="source-channels">{t.title}</h2>
      <p className="small soft">{own ? t.own : t.help}</p>
      <ol className="field-rows">
        {channels.map((channel, i) => {
          const set = (part: Partial<ChannelForm>) =>
            onChange(channels.map((one, at) => (at === i ? { ...one, ...part } : one)));
          const at = `channels.${i}`;
          return (
            <li key={i}>
              <IdentityFields channel={channel} path={at} onChange={set} />
              {numbers.map((one) => (
                <TextField
                  key={one}
                  label={t[one]}
                  path={`${at}.${paths[one]}`}
                  number
                  value={channel[one]}
                  onChange={(value) => set({ [one]: value })}
                />
              ))}
              <button
                type="button"
                className="button quiet square"
                aria-label={t.remove(i + 1)}
                onClick={() => onChange(channels.filter((_, at) => at !== i))}
              >
                <Icon name="close" size={16} />
              </button>
              <SurfaceFields channel={channel} of={channels} path={at} onChange={set} />
            </li>
          );
        })}
      </ol>
      <div className="acts">
        <button type="button" className="button" onClick={() => onChange([...channels, channelForm('', 'none')])}>
          <Icon name="plus" size={16} /> {t.add}
        </button>
      </div>
    </section>
  );
}
