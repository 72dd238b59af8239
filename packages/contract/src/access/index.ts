export * from './devices.ts';
export * from './network.ts';
export * from './routes.ts';
