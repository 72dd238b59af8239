export * from './encoded.ts';
export { countsOf, type LineCounts, type LineScript, type PacketFault, trueTime } from './line.ts';
export * from './twin-device.ts';
