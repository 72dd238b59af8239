import { checkFacts } from '../../facts/facts.ts';
import { protocolRegistry } from '../registry.ts';
import { secondsText } from './amount.ts';
import type { ProtocolDocument } from './document.ts';
import type { ProtocolAdvice } from './fault.ts';

/** What is allowed and deserves a thought, in the order of the document. */
export function protocolAdvice(document: ProtocolDocument): ProtocolAdvice[] {
  const found: ProtocolAdvice[] = [];
  const { warmUp, maximal, rest, cue, pull, checks } = document;
  const test = protocolRegistry.get(document.test.id);
  const last = warmUp.efforts.at(-1);
  if (maximal.planned > 0 && last === undefined)
    found.push({
      code: 'advice-no-submaximal',
      at: 'warmUp.efforts',
      words: 'No submaximal effort of the test comes before the first maximal one.',
    });
  if (maximal.planned > 0 && last !== undefined && last.share < 0.7)
    found.push({
      code: 'advice-last-effort-easy',
      at: `warmUp.efforts.${warmUp.efforts.length - 1}.share`,
      words: 'The last submaximal effort is easy; about three quarters prepare better for a maximal one.',
    });
  for (const [i, effort] of warmUp.efforts.entries())
    if (i > 0 && effort.share < (warmUp.efforts[i - 1]?.share ?? 0))
      found.push({
        code: 'advice-efforts-not-rising',
        at: `warmUp.efforts.${i}.share`,
        words: 'Easier than the effort before it.',
      });
  if (maximal.planned === 1)
    found.push({
      code: 'advice-few-efforts',
      at: 'maximal.planned',
      words: 'With one maximal effort nothing shows whether it was a good one.',
    });
  if (test !== undefined && maximal.planned > 0 && rest.minimum < test.restSeconds)
    found.push({
      code: 'advice-short-rest',
      at: 'rest.minimum',
      words: `Usual in this test: ${secondsText(test.restSeconds)}. Tired pulls look weaker than the athlete is.`,
    });
  if (test !== undefined && cue.words !== test.cue)
    found.push({
      code: 'advice-cue-differs',
      at: 'cue.words',
      words: `Usual in this test: "${test.cue}" Other words change rates of force development; compare only like with like.`,
    });
  if (
    test !== undefined &&
    (pull.seconds < test.pullSeconds.planned / 2 || pull.seconds > 2 * test.pullSeconds.planned)
  )
    found.push({
      code: 'advice-pull-differs',
      at: 'pull.seconds',
      words: `Usual in this test: ${secondsText(test.pullSeconds.planned)}. Peak and rates may differ for that reason alone.`,
    });
  for (const [id, { use }] of Object.entries(checks))
    if (!use)
      found.push({
        code: 'advice-check-off',
        at: `checks.${id}`,
        words: `${checkFacts.get(id)?.title ?? id}: nobody looks for it any more.`,
      });
  return found;
}
