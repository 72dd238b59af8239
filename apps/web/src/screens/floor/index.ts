export { FloorScreen as default } from './floor-screen.tsx';
