/** Round half up: floor(x + 0.5), also for negative x. Used wherever a time becomes a whole number of samples. */
export const roundHalfUp = (x: number): number => Math.floor(x + 0.5);

/** Whole samples in a duration: round(seconds * rate). */
export const samplesIn = (seconds: number, sampleRate: number): number => roundHalfUp(seconds * sampleRate);
