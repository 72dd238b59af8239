export const reliability = {};
