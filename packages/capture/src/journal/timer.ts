/** Wakes the journal up later; tests supply one they turn by hand. */
export interface Timer {
  /** Calls back once after so many seconds, unless cancelled. */
  after(seconds: number, act: () => void): () => void;
}

export const systemTimer: Timer = {
  after(seconds, act) {
    const handle = setTimeout(act, seconds * 1000);
    return () => clearTimeout(handle);
  },
};
