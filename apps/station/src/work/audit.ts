import type { AuditPage } from '@sthene/contract';
import { deviceName } from '../access/devices.ts';
import { type OpenLab, stationActor } from '../labs/open-lab.ts';

/** The audit trail, newest first, after the whole chain and the records behind it were proven. */
export async function auditPage(lab: OpenLab, query: { offset: number; limit: number }): Promise<AuditPage> {
  const { audit } = lab.store;
  const [chain, records, last] = await Promise.all([audit.verify(), audit.verifyRecords(), audit.last()]);
  const total = last?.sequence ?? 0;
  const entries = await audit.list({ before: total + 1 - query.offset, limit: query.limit });
  const chainProblems = chain.intact ? [] : [`${chain.problem} at entry ${chain.sequence}`];
  const problems = [...chainProblems, ...records.map((one) => `${one.table} ${one.id}: ${one.problem}`)];
  return {
    total,
    intact: problems.length === 0,
    problems,
    lastHash: last?.hash ?? '',
    entries: await Promise.all(
      entries.map(async (one) => ({
        sequence: one.sequence,
        at: one.at,
        who: await lab.nameOf(one.by),
        ...(await from(lab, one.station)),
        action: one.action,
        subject: `${one.subject.kind} ${one.subject.id}`,
        details: { ...one.details },
        hash: one.hash,
      })),
    ),
  };
}

/** The device something was done from, by the name it has now; nothing for the station itself. */
async function from(lab: OpenLab, place: string): Promise<{ device?: string }> {
  if (place === stationActor.station) return {};
  return { device: (await deviceName(lab, place)) ?? place };
}
