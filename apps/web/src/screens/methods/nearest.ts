export { NearestScreen as default } from './nearest-screen.tsx';
