export { RunScreen as default } from './run-screen.tsx';
