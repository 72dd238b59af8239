import { reportFileQuery, type reportFormat } from '@sthene/contract';
import type { LabOptions } from '../../files/open-lab.ts';

export interface ReportOptions extends LabOptions {
  readonly person?: string;
  readonly squad?: string;
  readonly everybody?: boolean;
  readonly session?: string;
  readonly test?: string;
  readonly metric?: string;
  readonly against?: 'last' | 'first' | 'mean-of-three';
  readonly sessions?: number;
  readonly protocol?: string;
  readonly rig?: string;
  readonly check?: string;
  readonly method?: string;
  readonly on?: string;
  readonly apart?: number;
  readonly pushOff?: number;
  readonly as: (typeof reportFormat.options)[number];
  readonly part?: string;
  readonly paper?: 'A4' | 'Letter';
  readonly language?: 'en' | 'de';
  readonly zone?: string;
  readonly unknownAge?: 'as-minor' | 'as-adult';
  readonly out: string;
  readonly overwrite?: boolean;
  readonly json?: boolean;
}

/** What the station is asked; folder and format of the output stay here. */
export const queryOf = (options: ReportOptions) => reportFileQuery.parse(options);
