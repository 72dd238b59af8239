export { ImportScreen as default } from './import-screen.tsx';
