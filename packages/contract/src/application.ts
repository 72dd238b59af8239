/** Version of the application; a test keeps it equal to package.json. */
export const version = '0.1.0';

/** What results, documents and stored facts name as their maker. */
export const application = `sthene ${version}`;
