import type { SourceDescription } from '../description.ts';
import { frameCodec } from './frames/frame-codec.ts';
import { type LineCodecOptions, lineCodec } from './lines/line-codec.ts';
import type { Codec, CodecReader } from './run.ts';

export * from './encode.ts';
export * from './frames/frame-codec.ts';
export * from './lines/line-codec.ts';
export * from './run.ts';

/** The codec of a description; throws for one without a layout, which the door does not let in for byte transports. */
export function codecOf(
  { layout, channels }: Pick<SourceDescription, 'layout' | 'channels'>,
  reader: CodecReader,
  options: LineCodecOptions = {},
): Codec {
  if (layout === undefined) throw new Error('A source without a layout has no codec.');
  const names = channels.map(({ name }) => name);
  return layout.kind === 'lines' ? lineCodec(layout, names, reader, options) : frameCodec(layout, names, reader);
}
