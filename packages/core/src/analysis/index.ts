export * from './events.ts';
export * from './request.ts';
export * from './result.ts';
export * from './trial-context.ts';
