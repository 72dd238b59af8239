export { StartScreen as default } from './start-screen.tsx';
