import { ApiProblem, type Problem } from '@sthene/contract';

/** A problem kept as data, as the card that shows it wants it. */
export const problemLike = (problem: Problem): ApiProblem => new ApiProblem(problem);
