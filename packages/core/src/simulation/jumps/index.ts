export * from './parameters.ts';
export { type JumpScript, jumpScript } from './script.ts';
export * from './simulate-jump.ts';
