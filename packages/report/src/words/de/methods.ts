export const methods = {};
