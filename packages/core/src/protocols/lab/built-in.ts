import { registry } from '../../registry.ts';
import type { Protocol } from '../protocol.ts';
import { protocolRegistry } from '../registry.ts';
import { runningRules, type SubmaximalEffort } from '../running.ts';
import type { ProtocolDocument } from './document.ts';

/** A protocol of this program under the short id by which an address or a command line names it. */
export interface BuiltInProtocol {
  readonly id: string;
  readonly document: ProtocolDocument;
}

const steps = ['5 to 10 min of easy movement that ends warm', 'A few easy efforts in the position of the test'];

const usualOf = (test: Protocol, about: Pick<ProtocolDocument, 'name' | 'summary'>): ProtocolDocument => {
  const rules = runningRules(test);
  return {
    schema: 'sthene.protocol/1',
    name: about.name,
    version: 1,
    summary: about.summary,
    note: '',
    test: { id: test.id, version: test.version },
    warmUp: { steps, confirm: false, efforts: rules.warmUp, rest: rules.rest.afterSubmaximal },
    maximal: test.maximalTrials,
    rest: { minimum: rules.rest.minimum, maximum: rules.rest.maximum },
    cue: { words: test.cue, voice: 'tone', count: rules.cue.count, delay: rules.cue.delay },
    pull: {
      seconds: test.pullSeconds.planned,
      warnUnder: test.pullSeconds.warnUnder,
      failUnder: test.pullSeconds.failUnder,
    },
    extraTrial: { difference: 250, minorShare: rules.minorAgreementShare },
    stop: { rejectedInARow: rules.stop.rejectedInARow, act: 'advise' },
    checks: {},
    setupFields: test.setupFields,
    localRules: [],
  };
};

const titles: Readonly<Record<string, string>> = {
  imtp: 'Mid-thigh pull, standard',
  'imtp-explosive': 'Mid-thigh pull, short and fast',
  'imtp-left': 'Mid-thigh pull, left leg',
  'imtp-right': 'Mid-thigh pull, right leg',
  'isometric-squat': 'Isometric squat, standard',
  'isometric-squat-left': 'Isometric squat, left leg',
  'isometric-squat-right': 'Isometric squat, right leg',
  'isometric-effort': 'Isometric effort, standard',
};

/** The built-in protocol of a test: its usual way. It has the id of the test. */
const standards = protocolRegistry.all.map(
  (test): BuiltInProtocol => ({
    id: test.id,
    document: usualOf(test, { name: titles[test.id] ?? test.title, summary: test.summary }),
  }),
);

const gentle = (share: number): SubmaximalEffort => ({ share, band: share > 0.8 ? 0.1 : 0.2, weightShare: 1.5 });

/** Getting to know a test: rising submaximal efforts, nothing maximal, so that the first session teaches and measures nothing. */
const familiarisation = (id: string, name: string): BuiltInProtocol => {
  const test = protocolRegistry.get(id);
  if (test === undefined) throw new Error(`There is no test "${id}".`);
  const usual = usualOf(test, {
    name,
    summary: 'Four rising submaximal efforts and no maximal one: a first session that teaches and is no measurement.',
  });
  return {
    id: `${id}-first-time`,
    document: {
      ...usual,
      warmUp: { ...usual.warmUp, confirm: true, efforts: [0.3, 0.5, 0.75, 0.9].map(gentle) },
      maximal: { minimum: 0, planned: 0, maximum: 0 },
    },
  };
};

/** The protocols of this program; a test without a protocol of the lab's own is run by the one with its id. */
export const builtInProtocols = registry<BuiltInProtocol>('protocol', [
  ...standards,
  familiarisation('imtp', 'Mid-thigh pull, first time'),
  familiarisation('isometric-squat', 'Isometric squat, first time'),
]);

/**
 * The built-in protocol of a test.
 *
 * @throws RangeError for a test this program does not have
 */
export function usualProtocol(test: string): ProtocolDocument {
  const found = builtInProtocols.get(test);
  if (found === undefined) throw new RangeError(`There is no test "${test}".`);
  return found.document;
}
