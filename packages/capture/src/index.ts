export * from './clock/clock.ts';
export * from './engine/index.ts';
export * from './journal/index.ts';
export * from './packets/packet.ts';
export * from './sources/create-source.ts';
export * from './sources/description.ts';
export * from './sources/source.ts';
export * from './sources/virtual/index.ts';
