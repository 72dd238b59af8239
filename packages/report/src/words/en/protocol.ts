import { type ProtocolDocument, protocolRules } from '@sthene/core';

const count = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;

/** Words of the sheet of a protocol. */
export const protocol = {
  title: (test: string) => `Protocol sheet: ${test}`,
  subject: (name: string, version: number) => `${name}, version ${version}`,
  blanks: ['Date', 'Place and rig', 'Operator', 'Spotter'],
  first: 'First of all',
  how: 'Step by step',
  submaximal: (share: string, band: string, rest: string) =>
    `Submaximal at ${share} (within ${band}), then ${rest} of rest`,
  maximal: (n: number, seconds: string | undefined, rest: string) =>
    seconds === undefined
      ? `${count(n, 'maximal jump', 'maximal jumps')}, ${rest} of rest after each`
      : `${count(n, 'maximal pull', 'maximal pulls')} of ${seconds}, ${rest} of rest after each`,
  limits: (minimum: number, maximum: number) => `At least ${minimum} must count; after ${maximum} it is over.`,
  say: (n: number) =>
    n === 0
      ? 'Say, word for word:'
      : `Count ${Array.from({ length: n }, (_, i) => n - i).join(', ')}, then word for word:`,
  stop: '“Stop. Let go.”',
  stopJump: '“Stop. Stay on the ground.”',
  rules: (document: ProtocolDocument): readonly string[] => protocolRules(document),
  setup: 'Setup of each athlete',
  name: 'Name',
  weight: 'Body weight',
  efforts: 'Efforts that counted',
  yesNo: 'yes / no',
  needed: '* needed',
  hash: (sha256: string) => `SHA-256 ${sha256}`,
};
