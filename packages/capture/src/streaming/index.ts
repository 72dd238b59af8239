export * from './clock-offset.ts';
export * from './feed.ts';
export {
  type FeedAnswer,
  type FeedRequest,
  feedRequestBegins,
  HeadGatherer,
  longestHead,
  readFeedAnswer,
  readFeedRequest,
  writeFeedAnswer,
  writeFeedRefusal,
  writeFeedRequest,
} from './feed-head.ts';
export { meetsFilter } from './filter.ts';
export { protocolVersion, type StreamFormat, streamFormats, usualSession, valueBytes } from './protocol.ts';
export { isQuery, readAnswer, readQuery, type StreamQuery, writeAnswer, writeQuery } from './query.ts';
export * from './sample-bytes.ts';
export { type ReadStream, type StreamFault, type StreamFaultCode, streamFaults } from './stream-fault.ts';
export { readStreamInfo, type StreamInfo, type StreamInfoChannel, writeStreamInfo } from './stream-info.ts';
export { patternOffsets, patternTime, testPattern } from './test-pattern.ts';
export * from './time-probe.ts';
export { readXml, type XmlElement } from './xml.ts';
