/** Which workspace may import which; everything not listed is refused. The picture stands in docs/explanation/house.md. */
export const mayImport = {
  'packages/core': [],
  'packages/formats': ['@sthene/core'],
  'packages/contract': ['@sthene/core'],
  'packages/store': ['@sthene/core'],
  'packages/report': ['@sthene/core'],
  'packages/capture': ['@sthene/core', '@sthene/formats'],
  'apps/station': [
    '@sthene/core',
    '@sthene/formats',
    '@sthene/contract',
    '@sthene/store',
    '@sthene/capture',
    '@sthene/report',
  ],
  'apps/cli': [
    '@sthene/core',
    '@sthene/formats',
    '@sthene/contract',
    '@sthene/store',
    '@sthene/capture',
    '@sthene/station',
  ],
  'apps/web': ['@sthene/core', '@sthene/contract', '@sthene/formats'],
};

/** Where Node's own modules may be used; everywhere else code runs unchanged in a browser and a worker. */
export const mayUseNode = [
  /^apps\/(station|cli)\//,
  /^packages\/capture\/src\/(sources\/[a-z-]+\/transport|sources\/transports|journal\/node)/,
  /^packages\/report\/src\/pdf\/fonts\.ts/,
  /^packages\/store\/src\/(dialects|files|migrations|hash\.ts|store\.ts)/,
];
