export * from './table.ts';
export * from './units.ts';
