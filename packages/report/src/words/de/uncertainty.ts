import type { uncertainty as english } from '../en/uncertainty.ts';

export const uncertainty: typeof english = {
  line: (size, k) =>
    `Unsicherheit ±${size} (k = ${k}): etwa 95 von 100 solchen Bereichen enthalten den gemeinten Wert, soweit ihre Anteile bekannt sind.`,
  unknown: (parts) => `Nicht bekannt und nicht darin: ${parts}.`,
  parts: {
    gain: 'Verstärkung der Platten',
    'plate-gain': 'Verstärkung jeder einzelnen Platte',
    repeatability: 'Wiederholbarkeit',
    linearity: 'Linearität',
    'beyond-check': 'Kraft jenseits der größten geprüften',
    'body-weight': 'Körpergewicht',
    noise: 'Rauschen der Messwerte',
    synchronisation: 'Gleichlauf der Platten',
    sampling: 'Raster der Messwerte',
    'peak-instant': 'Zeitpunkt der Spitze',
  },
};
