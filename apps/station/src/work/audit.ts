import type { AuditPage } from '@sthene/contract';
import type { OpenLab } from '../labs/open-lab.ts';

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
        action: one.action,
        subject: `${one.subject.kind} ${one.subject.id}`,
        details: { ...one.details },
        hash: one.hash,
      })),
    ),
  };
}
