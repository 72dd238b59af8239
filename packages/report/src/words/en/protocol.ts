export const protocol = {};
