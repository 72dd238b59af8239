export * from './describe.ts';
export * from './description.ts';
export { type TextErrorCode, type TextNoticeCode, textErrors, textNotices } from './errors.ts';
export * from './format.ts';
export * from './options.ts';
export * from './read.ts';
export { type ScanResult, type ScanSummary, scanText, type TextBlock, type TextSink } from './scan.ts';
export type { ScannedGrid } from './scanned-grid.ts';
export * from './write.ts';
