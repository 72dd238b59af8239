export { WallHome as default } from './wall-home.tsx';
