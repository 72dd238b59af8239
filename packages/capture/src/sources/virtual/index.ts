export { virtualDescription } from './description.ts';
export * from './script.ts';
export {
  isVirtual,
  type Schedule,
  type VirtualPlates,
  type VirtualPlatesOptions,
  virtualPlates,
  virtualRate,
} from './virtual-plates.ts';
