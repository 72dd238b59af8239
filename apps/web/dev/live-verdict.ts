import type { LiveVerdict } from '@sthene/contract';
import { type ScriptedEffort, weight } from './live-messages.ts';

/** The verdict on the made-up effort. */
export function scriptedVerdict(effort: ScriptedEffort, verdict: LiveVerdict['verdict']): LiveVerdict {
  const counts = verdict === 'counts';
  const submaximal = effort.kind === 'submaximal';
  return {
    rig: 'rig-a',
    turn: 't1',
    trial: 'good',
    session: 's1',
    person: { id: 'p1', name: 'Ines Okoro', code: 'FW-07' },
    effort,
    verdict,
    reasons: counts ? [] : [{ check: 'aborted', status: 'fail', words: 'The effort was stopped by hand.' }],
    say: counts ? (submaximal ? 'On target' : 'Good. That one counts') : 'Stopped. Relax',
    forces: 'total',
    ...(submaximal
      ? {
          closeness: {
            low: weight + 1450,
            high: weight + 1620,
            reached: weight + 1530,
            deviation: -0.3,
            where: 'inside' as const,
          },
        }
      : {}),
    values: [
      {
        metric: 'peak_force',
        words: 'Peak force',
        value: submaximal ? weight + 1530 : 2868,
        unit: 'N',
        history: { n: 6, best: 2760, mean: 2690 },
        best: counts && !submaximal,
      },
      { metric: 'rfd_0_200', words: 'Rate of force development, 0 to 200 ms', value: 7445, unit: 'N/s', best: false },
    ],
    evidence: { recording: 'r1', from: 0, span: { start: 0, end: 8000 }, onset: 2745, peak: 4270, end: 6470 },
    tookMs: 310,
  };
}
