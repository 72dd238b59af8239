/** Sizes in points of 1/72 inch: ISO 216 A4 (210 x 297 mm) and the Letter of North America (8.5 x 11 in). */
export const papers = {
  A4: { width: 595.28, height: 841.89 },
  Letter: { width: 612, height: 792 },
} as const;

export type Paper = keyof typeof papers;
