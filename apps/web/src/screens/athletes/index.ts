export { AthletesScreen as default } from './athletes-screen.tsx';
