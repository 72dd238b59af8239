// The page runs under a content policy that forbids making code from text. The schema library tries that once to see whether
// it may; told not to, it does not try, and the browser's log stays clean. A script of its own, because it must run before any
// module that makes a schema, in whatever order modules are bundled.
globalThis.__zod_globalConfig = { jitless: true };
