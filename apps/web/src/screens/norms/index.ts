export { NormsScreen as default } from './norms-screen.tsx';
