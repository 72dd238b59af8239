/** Words of how sure a value is. */
export const uncertainty = {
  line: (size: string, k: string) =>
    `Uncertainty ±${size} (k = ${k}): about 95 of 100 such intervals hold the value meant, as far as its parts are known.`,
  unknown: (parts: string) => `Not known and not in it: ${parts}.`,
  parts: {
    gain: 'gain of the plates',
    'plate-gain': 'gain of each plate by itself',
    repeatability: 'repeatability',
    linearity: 'linearity',
    'beyond-check': 'force beyond the largest checked one',
    'body-weight': 'body weight',
    noise: 'noise of the samples',
    synchronisation: 'how well the plates keep step',
    sampling: 'grid of the samples',
    'peak-instant': 'instant of the peak',
  } as Readonly<Record<string, string>>,
};
