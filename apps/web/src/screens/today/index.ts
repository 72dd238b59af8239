export { TodayScreen as default } from './today-screen.tsx';
