export { DaysScreen as default } from './days-screen.tsx';
