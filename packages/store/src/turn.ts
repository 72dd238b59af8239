/** Lets others be heard during a long write; what they ask of this database waits all the same. */
export const turn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));
