/** Everything that may be wrong with what a stranger sends; codes are permanent. */
export type StreamFaultCode =
  | 'stream-message-too-long'
  | 'stream-query-unreadable'
  | 'stream-answer-unreadable'
  | 'stream-xml-unreadable'
  | 'stream-info-wrong'
  | 'stream-header-unreadable'
  | 'stream-not-there'
  | 'stream-version-refused'
  | 'stream-refused'
  | 'stream-pattern-wrong'
  | 'stream-sample-unreadable'
  | 'stream-probe-unreadable';

/** The meaning of each code, for the reference page; a test keeps both equal. */
export const streamFaults: Readonly<Record<StreamFaultCode, string>> = {
  'stream-message-too-long': 'a message, or a part of one, is longer than the protocol needs it to be',
  'stream-query-unreadable': 'a query has not three lines with a filter, a port and an id',
  'stream-answer-unreadable': 'an answer does not begin with the id of a query',
  'stream-xml-unreadable': 'a stream info is no well-formed XML, or more of it than is believed',
  'stream-info-wrong': 'a stream info lacks a field, or holds a value that cannot be',
  'stream-header-unreadable': 'the lines before the samples are not as they have to be',
  'stream-not-there': 'the sender has no stream of this identity (any more)',
  'stream-version-refused': 'sender and receiver have no version of the protocol in common',
  'stream-refused': 'the sender refused the connection for another reason',
  'stream-pattern-wrong': 'the two samples that begin every connection are not those that were agreed',
  'stream-sample-unreadable': 'bytes among the samples are no sample; what follows them cannot be trusted',
  'stream-probe-unreadable': 'a time probe, or an answer to one, is not as it has to be',
};

/** One thing wrong with a message: the code, and what came, in words. */
export interface StreamFault {
  readonly code: StreamFaultCode;
  readonly words: string;
}

/** A message, or why it could not be read. */
export type ReadStream<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly fault: StreamFault };

export const read = <T>(value: T): ReadStream<T> => ({ ok: true, value });

export const refuse = (code: StreamFaultCode, words: string): ReadStream<never> => ({
  ok: false,
  fault: { code, words },
});
