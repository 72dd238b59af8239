import type { Gate as GateAnswer, gateDraft, gateRelease } from '@sthene/contract';
import type { Gate } from '@sthene/store';
import type { z } from 'zod';
import { ProblemError, problems } from '../../server/problem-error.ts';
import type { LiveLab } from '../live-lab.ts';

/** Clearances, screening, consent and stops of a person. */
export async function listGates(live: LiveLab, person: string): Promise<GateAnswer[]> {
  if ((await live.lab.store.people.get(person)) === undefined) throw problems.notFound('person');
  return Promise.all((await live.lab.store.gates.ofPerson(person)).map((one) => answer(live, one)));
}

export async function addGate(live: LiveLab, person: string, draft: z.infer<typeof gateDraft>): Promise<GateAnswer> {
  if ((await live.lab.store.people.get(person)) === undefined) throw problems.notFound('person');
  const { by, test, until, ...rest } = draft;
  const gate = await live.lab.store.gates.add(
    { ...rest, person, ...(test === undefined ? {} : { test }), ...(until === undefined ? {} : { until }) },
    await live.lab.actor(by),
  );
  if (live.loaded !== undefined) await live.refresh();
  return answer(live, gate);
}

/** Lifts a restriction or stop, by name and with a reason; running engines are told. */
export async function releaseGate(
  live: LiveLab,
  id: string,
  release: z.infer<typeof gateRelease>,
): Promise<GateAnswer> {
  const before = await live.lab.store.gates.get(id);
  if (before === undefined) throw problems.notFound('gate');
  if (before.released !== undefined)
    throw new ProblemError(409, 'released-already', 'This was lifted already.', 'Nothing is to be done.');
  const actor = await live.lab.actor(release.by);
  const gate = await live.lab.store.gates.change(
    id,
    { released: { by: actor.by, at: live.ports.clock.wall(), reason: release.reason } },
    actor,
    { reason: release.reason },
  );
  if (gate.kind === 'pain-stop')
    for (const { runtime } of live.rigs.values())
      live.order(runtime, { order: 'release-pain', person: gate.person, by: actor.by, reason: 'released by name' });
  if (live.loaded !== undefined) await live.refresh();
  return answer(live, gate);
}

async function answer({ lab }: LiveLab, gate: Gate): Promise<GateAnswer> {
  const { released, ...rest } = gate;
  return {
    ...rest,
    ...(released === undefined ? {} : { released: { ...released, by: await lab.nameOf(released.by) } }),
  };
}
