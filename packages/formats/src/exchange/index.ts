export * from './exchange.ts';
export * from './fields.ts';
