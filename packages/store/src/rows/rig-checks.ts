// What known masses said of a rig, and what was put right by it.

export interface RigCheckRow {
  id: string;
  rigId: string;
  sequence: number;
  at: string;
  by: string;
  role: string | null;
  station: string;
  document: string;
  result: string;
  verdict: string;
  note: string;
}

export interface RigCorrectionRow {
  id: string;
  rigId: string;
  checkId: string | null;
  sequence: number;
  at: string;
  by: string;
  role: string | null;
  station: string;
  plates: string;
  reason: string;
}
