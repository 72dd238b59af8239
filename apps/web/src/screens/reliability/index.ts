export { ReliabilityScreen as default } from './reliability-screen.tsx';
