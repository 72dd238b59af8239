export * from './deming.ts';
export * from './least-products.ts';
export * from './line.ts';
export * from './passing-bablok.ts';
