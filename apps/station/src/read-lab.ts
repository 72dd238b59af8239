import {
  type AthleteView,
  application,
  type BatteryQuery,
  type BatteryView,
  type LabId,
  type ReportFileQuery,
  type ReportKind,
  type SessionRow,
  type SessionView,
  type TrialView,
} from '@sthene/contract';
import type { ProtocolDocument, Recording } from '@sthene/core';
import type { Table } from '@sthene/core/stats';
import { dataFolder } from './data-folder.ts';
import { Labs } from './labs/labs.ts';
import { ProblemError, problems } from './server/problem-error.ts';
import { athleteView } from './work/athlete/athlete.ts';
import { type LabHistory, labHistory } from './work/athlete/history.ts';
import { metricNamed } from './work/athlete/metrics.ts';
import { newestSessions, valuesOf } from './work/athlete/repeated.ts';
import { batteryView } from './work/battery/battery.ts';
import { nameOf, squadNamed } from './work/people.ts';
import { readRecording } from './work/read-recording.ts';
import { type ReportFile, reportFile } from './work/report/deliver.ts';
import { sessionsPackage } from './work/session-package.ts';
import { sessionsPage, sessionView } from './work/sessions.ts';
import { trialView } from './work/trial-view.ts';

export interface ReadLabOptions {
  /** Data folder; where the station would look when absent. */
  readonly data?: string;
  readonly database?: string;
  readonly lab?: LabId;
}

/** A protocol of the lab with its versions. */
export interface LabProtocol {
  readonly id: string;
  readonly builtIn: boolean;
  readonly archived: boolean;
  readonly versions: readonly ProtocolDocument[];
}

/** A lab of a data folder, for looking at it and taking things out; a station may run beside it. */
export interface LabReader {
  readonly folder: string;
  /** Every session, newest first. */
  sessions(): Promise<SessionRow[]>;
  session(id: string): Promise<SessionView>;
  trial(id: string): Promise<TrialView>;
  /** The recording of a trial, as received. */
  recording(trial: string): Promise<Recording>;
  /** The newest sessions of each athlete of a test, by code, for its reliability. */
  newestSessions(
    test: string,
    metric: string,
    count: number,
  ): Promise<{ readonly people: readonly string[]; readonly values: Table } & Pick<LabHistory, 'unit' | 'scale'>>;
  /** An athlete by code or id, followed in one metric. */
  athlete(code: string, asked: { readonly test?: string; readonly metric?: string }): Promise<AthleteView>;
  /** Ratios of an athlete's tests; the athlete by code or id. */
  battery(code: string, asked: BatteryQuery): Promise<BatteryView>;
  /** Protocols of the lab, versions newest first. */
  protocols(): Promise<LabProtocol[]>;
  /** A report as a file; athlete by code or id, squad by name or id. */
  report(kind: ReportKind, query: ReportFileQuery): Promise<ReportFile>;
  /** Athletes of a squad by name or id, or everybody who is active. */
  members(squad?: string): Promise<{ readonly code: string; readonly name: string }[]>;
  /** Sessions as one Data Package, a ZIP file. */
  package(sessions: readonly string[]): Promise<Uint8Array>;
  close(): Promise<void>;
}

/** Opens a lab that is there. Throws a refusal with `lab-missing` where it was never set up. */
export async function readLab(options: ReadLabOptions = {}): Promise<LabReader> {
  const data = dataFolder(options.data);
  const database = options.database ?? process.env.STHENE_DATABASE;
  const labs = new Labs({ data, application, ...(database === undefined ? {} : { database }) });
  const lab = await labs.open(options.lab ?? 'lab');
  return {
    folder: lab.folder,
    async sessions() {
      const rows: SessionRow[] = [];
      for (;;) {
        const page = await sessionsPage(lab, { offset: rows.length, limit: 500 });
        rows.push(...page.rows);
        if (page.rows.length === 0 || rows.length >= page.total) return rows;
      }
    },
    session: (id) => sessionView(lab, id),
    trial: (id) => trialView(lab, id),
    async recording(id) {
      const trial = await lab.store.trials.get(id);
      if (trial?.recording === undefined) throw problems.notFound('recording of this trial');
      return readRecording(lab, trial.recording, trial.recordingLabel ?? '', trial.reading ?? {});
    },
    async newestSessions(test, metric, count) {
      const history = await labHistory(lab, test, metricNamed(metric));
      const newest = newestSessions(history, count);
      const codes = new Map((await lab.store.people.list()).map(({ id, code }) => [id, code]));
      const { unit, scale } = history;
      return { people: [...newest.keys()].map((id) => codes.get(id) ?? id), values: valuesOf(newest), unit, scale };
    },
    async athlete(code, asked) {
      const id = (await lab.store.people.byCode(code))?.id ?? code;
      return athleteView(lab, id, asked);
    },
    async battery(code, asked) {
      const id = (await lab.store.people.byCode(code))?.id ?? code;
      return batteryView(lab, id, asked);
    },
    async protocols() {
      const own = await lab.store.protocols.list();
      return Promise.all(
        own.map(async ({ id, archived }) => {
          const versions = (await lab.store.protocols.versionsOf(id)).map(({ document }) => document).reverse();
          return { id, builtIn: false, archived, versions };
        }),
      );
    },
    async report(kind, query) {
      const squad = query.squad === undefined ? undefined : (await squadNamed(lab, query.squad)).id;
      return reportFile(lab, kind, { ...query, squad });
    },
    async members(name) {
      const squad = name === undefined ? undefined : await squadNamed(lab, name);
      const people = await lab.store.people.list({ active: true });
      return people
        .filter(({ id }) => squad === undefined || squad.members.includes(id))
        .map((one) => ({ code: one.code, name: nameOf(one) }));
    },
    package: (sessions) => sessionsPackage(lab, sessions),
    close: () => labs.close(),
  };
}

export { ProblemError };
