import { protocolRegistry } from '../registry.ts';
import { secondsText, valueText } from './amount.ts';
import type { ProtocolDocument } from './document.ts';
import { estimateProtocol } from './estimate.ts';

/** The protocol in plain sentences, one for each part, in the order of a session. */
export function protocolSentences(document: ProtocolDocument): string[] {
  const { warmUp, maximal, rest, cue, checks } = document;
  const off = Object.values(checks).filter(({ use }) => !use).length;
  const changed = Object.values(checks).filter(({ use, limits }) => use && limits !== undefined).length;
  return [
    warmUpSentence(warmUp),
    maximal.planned === 0
      ? 'No maximal effort.'
      : `${effortsText(document)}; at least ${maximal.minimum} must count, at most ${maximal.maximum} are made.`,
    maximal.maximum > 1 ? restSentence(rest) : '',
    `${cue.count === 1 ? 'One count' : `A count of ${cue.count}`}, then ${cue.voice === 'spoken' ? 'tone and voice' : 'the tone'}: "${cue.words}"`,
    maximal.planned > 1 ? extraSentence(document) : '',
    maximal.planned > 0 ? stopSentence(document) : '',
    off + changed === 0
      ? ''
      : `Checks that differ from the method: ${[...(off > 0 ? [`${off} off`] : []), ...(changed > 0 ? [`${changed} with other limits`] : [])].join(', ')}.`,
    timeSentence(document),
  ].filter((one) => one !== '');
}

/** The rules of a session in sentences, for paper: rest, extra trial, when to stop. */
export const protocolRules = (document: ProtocolDocument): string[] =>
  document.maximal.planned === 0 ? [] : [restSentence(document.rest), extraSentence(document), stopSentence(document)];

const restSentence = ({ minimum, maximum }: ProtocolDocument['rest']): string =>
  `${secondsText(minimum)} of rest between them; after ${secondsText(maximum)} one submaximal effort comes first.`;

function warmUpSentence({ steps, efforts, rest }: ProtocolDocument['warmUp']): string {
  const before = steps.length === 0 ? '' : `${countOf(steps.length, 'warm-up step')}, then `;
  if (efforts.length === 0) return `${before === '' ? 'No submaximal effort' : `${before}no submaximal effort`}.`;
  const shares = efforts.map(({ share }) => valueText(share, 'share'));
  const list = shares.length === 1 ? shares[0] : `${shares.slice(0, -1).join(', ')} and ${shares.at(-1)}`;
  return `${before}${countOf(efforts.length, 'submaximal effort')} at ${list} with ${secondsText(rest)} of rest after each.`;
}

/** A jump has no length, and its heights are not compared in newtons. */
export const isJumpProtocol = ({ test }: Pick<ProtocolDocument, 'test'>): boolean =>
  protocolRegistry.get(test.id)?.jump !== undefined;
const effortWord = (document: ProtocolDocument): string => (isJumpProtocol(document) ? 'jump' : 'pull');

const effortsText = (document: ProtocolDocument): string => {
  const { maximal, pull } = document;
  const efforts = countOf(maximal.planned, `maximal ${effortWord(document)}`);
  return isJumpProtocol(document) ? efforts : `${efforts} of ${secondsText(pull.seconds)}`;
};

function extraSentence(document: ProtocolDocument): string {
  const { extraTrial, test } = document;
  if (isJumpProtocol(document) && extraTrial.share === undefined)
    return 'One more jump while the two best differ by more than the jump method allows.';
  const unit = protocolRegistry.get(test.id)?.parameters?.unit ?? 'N';
  const limit =
    extraTrial.share === undefined
      ? valueText(extraTrial.difference, 'force', unit)
      : `${valueText(extraTrial.share, 'share')} of the best`;
  return `One more ${effortWord(document)} while the two best differ by more than ${limit}.`;
}

function stopSentence(document: ProtocolDocument): string {
  const { rejectedInARow, fall, act } = document.stop;
  const fallen = fall === undefined ? '' : ` or a fall of ${valueText(fall, 'share')} from the best of the day`;
  const what = act === 'close' ? 'the maximal efforts end' : 'stopping is advised';
  return `After ${countOf(rejectedInARow, `rejected ${effortWord(document)}`)} in a row${fallen} ${what}.`;
}

function timeSentence(document: ProtocolDocument): string {
  const { seconds, resting } = estimateProtocol(document);
  const minutes = (value: number) => Math.max(1, Math.round(value / 60));
  return `About ${minutes(seconds)} min for one athlete, ${minutes(resting)} min of it resting, while others can be tested.`;
}

const countOf = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`;
