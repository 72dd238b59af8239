export { DayScreen as default } from './day-screen.tsx';
