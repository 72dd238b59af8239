export * from './parse.ts';
export { type SourceProblem, type SourceProblemCode, sourceProblems } from './problem.ts';
