export { SourceScreen as default } from './source-screen.tsx';
