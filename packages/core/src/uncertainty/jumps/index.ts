export { drawJumpMetrics } from './jump-draws.ts';
export { sourcesOfJump } from './jump-sources.ts';
export { jumpUncertainties } from './jump-uncertainty.ts';
