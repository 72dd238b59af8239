// Values of others, without curves.

export interface ReceivedImportRow {
  id: string;
  revision: number;
  kind: string;
  fileSha256: string;
  fileName: string;
  byteCount: number;
  mapping: string;
  sessionCount: number;
  valueCount: number;
  importedAt: string;
  takenBack: number;
}

export interface ReceivedSessionRow {
  sessionId: string;
  importId: string;
  methodLabel: string;
  timeKnown: number;
}

export interface ReceivedValueRow {
  id: string;
  importId: string;
  sessionId: string;
  row: number;
  position: number | null;
  of: string;
  metric: string;
  value: number | null;
  unit: string;
  reason: string | null;
  givenValue: string;
  givenUnit: string;
  origin: string | null;
  facts: string;
}
