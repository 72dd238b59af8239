export { TrialScreen as default } from './trial-screen.tsx';
