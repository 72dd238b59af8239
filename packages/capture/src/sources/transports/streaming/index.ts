export { channelsOfStream, describeStream, unusable } from './describe-stream.ts';
export { type FindStreams, type FoundStream, type FoundStreams, findStreams } from './find-streams.ts';
export { fullInfo } from './full-info.ts';
export { type StreamNetwork, usualStreamNetwork } from './network.ts';
export { isStreamSource, type StreamSource, streamSource } from './stream-source.ts';
