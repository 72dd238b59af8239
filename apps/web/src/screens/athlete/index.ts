export { AthleteScreen as default } from './athlete-screen.tsx';
