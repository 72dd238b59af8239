export * from './charts.ts';
