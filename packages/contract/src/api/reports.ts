import { z } from 'zod';
import { athleteChange } from './athlete.ts';
import { batteryQuery } from './follow/battery.ts';
import { labId } from './lab.ts';
import type { Route } from './routes.ts';

export const reportKind = z.enum([
  'athlete',
  'battery',
  'squad',
  'session',
  'reliability',
  'methods',
  'protocol',
  'plates',
]);
export const reportPaper = z.enum(['A4', 'Letter']);
export const reportLanguage = z.enum(['en', 'de']);
export const reportFormat = z.enum(['pdf', 'html', 'xlsx', 'csv', 'svg', 'png']);
/** How somebody without a birth date is reported. */
export const unknownAge = z.enum(['as-minor', 'as-adult']);

/** Whose report, of what. What a kind does not need is not looked at. */
export const reportQuery = z.object({
  /** Id or code of an athlete. */
  person: z.string().optional(),
  squad: z.string().optional(),
  session: z.string().optional(),
  test: z.string().optional(),
  metric: z.string().optional(),
  /** Of an athlete: what the newest session is held against. */
  against: athleteChange.shape.reference.optional(),
  /** Of the reliability: newest sessions of each athlete. */
  sessions: z.coerce.number().int().min(2).max(20).optional(),
  /** Short id, id or hash of a protocol. */
  protocol: z.string().optional(),
  /** Of a rig's plates: a check by its id, or the newest of a rig. */
  check: z.string().optional(),
  rig: z.string().optional(),
  /** Built-in id or hash of a method. */
  method: z.string().optional(),
  /** Of a battery of tests: last day, days between the tests of one ratio, push-off distance in cm. */
  on: batteryQuery.shape.on,
  apart: z.coerce.number().int().min(0).max(120).optional(),
  pushOff: batteryQuery.shape.pushOff,
  language: reportLanguage.optional(),
  /** IANA time zone of the dates. */
  zone: z.string().max(60).optional(),
  unknownAge: unknownAge.optional(),
});

export const reportFileQuery = reportQuery.extend({
  as: reportFormat.default('pdf'),
  paper: reportPaper.optional(),
  /** Of several tables or figures the one with this id; the first unless given. */
  part: z.string().max(60).optional(),
});

/** The parts of a report that are copied or saved alone. */
export const reportContent = z.object({
  title: z.string(),
  subject: z.string(),
  /** Name for a file, without its ending. */
  file: z.string(),
  tables: z.array(
    z.object({ id: z.string(), title: z.string(), rows: z.number(), html: z.string(), tabbed: z.string() }),
  ),
  figures: z.array(
    z.object({ id: z.string(), caption: z.string(), width: z.number(), height: z.number(), svg: z.string() }),
  ),
});

export const reportLogo = z.object({
  mediaType: z.enum(['image/png', 'image/jpeg']),
  width: z.number(),
  height: z.number(),
  /** Base64. */
  data: z.string(),
});

/** How the lab's reports look, and what they are unless asked otherwise. */
export const reportAppearance = z.object({
  /** Name on every page. */
  labName: z.string(),
  logo: reportLogo.optional(),
  paper: reportPaper,
  language: reportLanguage,
  zone: z.string(),
  unknownAge,
});

export const reportAppearanceDraft = z.object({
  labName: z.string().trim().min(1).max(100),
  /** Base64 of a PNG or JPEG; null takes the logo away; absent leaves it. */
  logo: z.string().max(700_000).nullable().optional(),
  paper: reportPaper,
  language: reportLanguage,
  zone: z.string().min(1).max(60),
  unknownAge,
  by: z.string().min(1).max(100),
});

const route = <P, Q, B, R>(definition: Route<P, Q, B, R>): Route<P, Q, B, R> => definition;
const inLab = z.object({ lab: labId });
const ofKind = z.object({ lab: labId, kind: reportKind });

/** Reports of stored results. */
export const reportRoutes = {
  /** Answers with the file. */
  report: route({
    method: 'GET',
    path: '/api/labs/:lab/reports/:kind',
    summary: 'A report as PDF, HTML, XLSX, CSV, SVG or PNG; the same data give the same bytes',
    params: ofKind,
    query: reportFileQuery,
  }),
  reportContent: route({
    method: 'GET',
    path: '/api/labs/:lab/reports/:kind/content',
    summary: 'Tables of a report for the clipboard, and its figures as SVG',
    params: ofKind,
    query: reportQuery,
    response: reportContent,
  }),
  reportAppearance: route({
    method: 'GET',
    path: '/api/labs/:lab/report-appearance',
    summary: 'Name, logo, paper and language of the lab on its reports',
    params: inLab,
    response: reportAppearance,
  }),
  changeReportAppearance: route({
    method: 'PUT',
    path: '/api/labs/:lab/report-appearance',
    summary: 'Change name, logo, paper and language of the lab on its reports',
    params: inLab,
    body: reportAppearanceDraft,
    response: reportAppearance,
  }),
};

export type ReportKind = z.infer<typeof reportKind>;
export type ReportPaper = z.infer<typeof reportPaper>;
export type ReportLanguage = z.infer<typeof reportLanguage>;
export type ReportFormat = z.infer<typeof reportFormat>;
export type ReportQuery = z.infer<typeof reportQuery>;
export type ReportFileQuery = z.infer<typeof reportFileQuery>;
export type ReportContent = z.infer<typeof reportContent>;
export type ReportAppearance = z.infer<typeof reportAppearance>;
export type ReportAppearanceDraft = z.infer<typeof reportAppearanceDraft>;
