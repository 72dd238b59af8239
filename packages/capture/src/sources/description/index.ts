export * from './parse.ts';
export { type SourceProblem, type SourceProblemCode, sourceNextStep, sourceProblems } from './problem.ts';
