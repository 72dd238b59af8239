export { RigsScreen as default } from './rigs-screen.tsx';
