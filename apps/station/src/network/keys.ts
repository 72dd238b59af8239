/** Everything that needs the certificate library. It takes long to load, so it is imported when the network is first used. */
export { derOf, factsOf } from './certificates.ts';
export { permits } from './constraints.ts';
export { KeyFiles } from './key-files.ts';
