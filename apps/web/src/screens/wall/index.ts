export { WallScreen as default } from './wall-screen.tsx';
