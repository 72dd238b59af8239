export { PairScreen as default } from './pair-screen.tsx';
