export const session = {};
