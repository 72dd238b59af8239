/**
 * The page runs under a content policy that forbids making code from text. The schema library tries that once to see
 * whether it may; told not to, it does not try, and the browser's log stays clean. Must be loaded before any schema.
 */
const settings = globalThis as { __zod_globalConfig?: { jitless?: boolean } };
settings.__zod_globalConfig = { ...settings.__zod_globalConfig, jitless: true };
