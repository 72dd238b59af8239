/** What keeps a document from being a protocol. Codes are permanent. */
export const protocolFaults = {
  'protocol-not-an-object': 'The document, or a part of it, is no object or list.',
  'protocol-schema-unknown': 'The document says another schema than `sthene.protocol/1`.',
  'protocol-field-missing': 'A field that is needed is not there.',
  'protocol-field-unknown': 'A field is not one of a protocol; a misspelt one would silently do nothing.',
  'protocol-type-wrong': 'A value has the wrong kind: a text where a number belongs, for instance.',
  'protocol-out-of-range': 'A number lies outside its limits.',
  'protocol-choice-unknown': 'A value is not one of the words it may be.',
  'protocol-too-long': 'A text or a list is longer than one page of paper can carry.',
  'protocol-empty': 'A text that people must read is empty.',
  'protocol-test-unknown': 'The test, or its version, is not one of this program.',
  'protocol-check-unknown': 'The check, or its limit, is not one of this program.',
  'protocol-order-wrong': 'Two values stand in the wrong order, such as a longest rest under the shortest.',
  'protocol-no-warm-up': 'Maximal efforts are planned and no warm-up.',
  'protocol-twice': 'Two entries of a list have the same id.',
  'protocol-choices-missing': 'A setup field to choose from has fewer than two choices.',
} as const;

export type ProtocolFaultCode = keyof typeof protocolFaults;

/** One fault: where, what was expected, what came, and a sentence for people. */
export interface ProtocolFault {
  readonly code: ProtocolFaultCode;
  /** Path from the top, as in `rest.minimum` or `warmUp.efforts.0.share`. */
  readonly at: string;
  readonly expected: string;
  readonly found: string;
  readonly words: string;
}

/** Something allowed that deserves a thought. Codes are permanent. */
export const protocolAdviceCodes = {
  'advice-no-submaximal': 'No submaximal effort of the test comes before the first maximal one.',
  'advice-last-effort-easy': 'The last submaximal effort is easier than 70 %.',
  'advice-efforts-not-rising': 'A submaximal effort is easier than the one before it.',
  'advice-short-rest': 'The rest is shorter than the usual one of this test.',
  'advice-few-efforts': 'With one maximal effort nothing shows whether it was a good one.',
  'advice-cue-differs': 'Other words than usual: rates of force development make a series of their own.',
  'advice-pull-differs': 'Much longer or shorter than usual: peak and rates may differ for that reason alone.',
  'advice-check-off': 'A check is switched off.',
} as const;

export type ProtocolAdviceCode = keyof typeof protocolAdviceCodes;

export interface ProtocolAdvice {
  readonly code: ProtocolAdviceCode;
  readonly at: string;
  readonly words: string;
}
