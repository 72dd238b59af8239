// Who is tested, and what is known and written down of them.

export interface PersonRow {
  id: string;
  revision: number;
  code: string;
  givenName: string;
  familyName: string;
  birthDate: string | null;
  sex: string | null;
  notes: string;
  active: number;
  searchKey: string;
}

export interface SquadRow {
  id: string;
  revision: number;
  name: string;
  notes: string;
  active: number;
}

export interface GateRow {
  id: string;
  revision: number;
  personId: string;
  kind: string;
  granted: number;
  limb: string;
  test: string | null;
  fromDay: string;
  untilDay: string | null;
  note: string;
  releasedBy: string | null;
  releasedAt: string | null;
  releaseReason: string | null;
}

export interface AthleteNoteRow {
  id: string;
  revision: number;
  personId: string;
  kind: string;
  fromDay: string;
  untilDay: string | null;
  text: string;
  limb: string | null;
  test: string | null;
  metric: string | null;
  value: number | null;
  unit: string | null;
  active: number;
}
