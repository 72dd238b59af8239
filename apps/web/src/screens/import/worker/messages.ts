import type { Mapping } from '@sthene/contract';
import type { ForceProposal, Notice } from '@sthene/core';
import type { Detection, FormatError, TextDescription } from '@sthene/formats';

/** How a file is to be read, as the contract carries it. */
export type Reading = Mapping['reading'];
export type Input = Mapping['inputs'][number];

/** One format's answer, ready to be shown. */
export interface Answer extends Detection {
  readonly format: string;
  readonly title: string;
}

/** Something of a file that can become a force. */
export interface SourceInfo {
  readonly kind: 'channel' | 'platform';
  readonly index: number;
  readonly name: string;
  /** UCUM code of the file, '' where it names none; N for a platform. */
  readonly unit: string;
  /** Smallest and largest finite value in the file's unit; absent where there is none. */
  readonly range?: readonly [number, number];
  /** C3D platform type. */
  readonly type?: number;
  readonly usable: boolean;
}

export interface RecordingInfo {
  readonly labels: readonly string[];
  readonly sampleRate: number;
  readonly rateOrigin: string;
  readonly sampleCount: number;
  readonly recordedAt?: string;
  readonly sources: readonly SourceInfo[];
  readonly notices: readonly Notice[];
}

/** Why a test or the number of efforts is proposed; words stand in the catalogue. */
export type Why =
  | { readonly code: 'standing'; readonly newtons: number }
  | {
      readonly code:
        | 'unloaded'
        | 'flight'
        | 'jump'
        | 'not-newtons'
        | 'one-effort'
        | 'trials'
        | 'no-effort'
        | 'remembered';
    }
  | { readonly code: 'one-side'; readonly side: 'left' | 'right' }
  | { readonly code: 'efforts'; readonly count: number };

export interface Suggestion {
  readonly test: string;
  readonly efforts: 'largest' | 'all';
  readonly why: readonly Why[];
}

/** The first rows as a table: as written in a text file, as physical values elsewhere. */
export interface FirstRows {
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** Number of the first row in the file, or 1. */
  readonly from: number;
}

/** All that a file tells before anything is imported. */
export interface Look {
  readonly answers: readonly Answer[];
  /** Id of the format the station will read it with; '' when none recognises it. */
  readonly format: string;
  readonly formatTitle: string;
  /** Stable name of the header; absent where there is nothing to recognise it by. */
  readonly signature?: string;
  readonly text?: TextDescription;
  readonly recording?: RecordingInfo;
  readonly proposal?: ForceProposal;
  readonly suggestion?: Suggestion;
  readonly rows?: FirstRows;
  readonly error?: FormatError;
  /** It may be a table of results, without curves: surely, or ask. */
  readonly results?: 'yes' | 'perhaps';
  /** First bytes in hexadecimal, for a description of an unknown file. */
  readonly firstBytes: string;
}

export interface PreviewCurve {
  readonly sampleRate: number;
  readonly samples: number;
  readonly unit: string;
  readonly total: Float64Array;
  readonly left?: Float64Array;
  readonly right?: Float64Array;
  readonly gaps: {
    readonly filled: readonly { start: number; end: number }[];
    readonly open: readonly { start: number; end: number }[];
  };
}

export type CurveAnswer =
  | { readonly ok: true; readonly curve: PreviewCurve }
  | { readonly ok: false; readonly code: string; readonly message: string; readonly next: string };

export type Ask =
  | { readonly ask: 'look'; readonly file: File; readonly reading: Reading }
  | {
      readonly ask: 'curve';
      readonly file: File;
      readonly reading: Reading;
      readonly inputs: readonly Input[];
      readonly test: string;
      readonly label: string;
    }
  | { readonly ask: 'suggest'; readonly file: File; readonly reading: Reading; readonly inputs: readonly Input[] };

/** A proposal for inputs that a person chose; absent where the file cannot be read. */
export interface SuggestAnswer {
  readonly suggestion?: Suggestion;
}

export type Request = Ask & { readonly id: number };
export type Reply =
  | { readonly id: number; readonly ok: true; readonly value: Look | CurveAnswer | SuggestAnswer }
  | { readonly id: number; readonly ok: false; readonly message: string };
