// Every state, and the audit trail.

export interface RevisionRow {
  subjectKind: string;
  subjectId: string;
  number: number;
  document: string;
  salt: string;
  reason: string;
  by: string;
  role: string | null;
  station: string;
  at: string;
}

export interface AuditRow {
  sequence: number;
  at: string;
  by: string;
  role: string | null;
  station: string;
  action: string;
  subjectKind: string;
  subjectId: string;
  details: string;
  previousHash: string;
  hash: string;
}
