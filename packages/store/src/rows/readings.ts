// Double readings.

export interface BlindStudyRow {
  id: string;
  revision: number;
  title: string;
  trials: string;
  readers: string;
  createdAt: string;
  closed: number;
}

export interface BlindReadingRow {
  id: string;
  revision: number;
  studyId: string;
  trialId: string;
  reader: number;
  onset: number | null;
  verdict: string;
  readAt: string;
}
