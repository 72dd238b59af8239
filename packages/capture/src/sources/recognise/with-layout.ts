import type { ChannelDescription, FieldRole, FrameLayout, LineLayout, SourceDescription } from '../description.ts';
import type { ProposedLayout } from './recognise.ts';

/**
 * A description with a proposed layout instead of its own. Channels that were described stay as they are, in their order, and the
 * layout's fields take their names; further ones are plates of their own, in counts, until a person says more. Calibrations stay as
 * far as all of their signals still come.
 */
export function withLayout(description: SourceDescription, proposed: ProposedLayout): SourceDescription {
  const known = description.channels.slice(0, proposed.channels.length);
  const taken = new Set(known.map(({ name }) => name));
  const channels = proposed.channels.map((name, i): ChannelDescription => {
    const described = known[i];
    if (described !== undefined) return described;
    const own = taken.has(name) ? `${name} of the layout` : name;
    return { name: own, plate: own, side: 'none', axis: 'z', unit: '1', scale: 1, offset: 0 };
  });
  const names = new Map(proposed.channels.map((name, i) => [name, channels[i]?.name ?? name]));
  const { calibration = [], ...rest } = description;
  const kept = calibration.filter(({ signals }) => signals.every((name) => channels.some((one) => one.name === name)));
  return {
    ...rest,
    layout: renamed(proposed.layout, names),
    channels,
    ...(kept.length === 0 ? {} : { calibration: kept }),
  };
}

function renamed(layout: LineLayout | FrameLayout, names: ReadonlyMap<string, string>): LineLayout | FrameLayout {
  const of = <F extends FieldRole>(field: F): F =>
    field.role === 'channel' ? { ...field, channel: names.get(field.channel) ?? field.channel } : field;
  if (layout.kind === 'lines') return { ...layout, fields: layout.fields.map(of) };
  return { ...layout, head: layout.head.map(of), sample: layout.sample.map(of) };
}
