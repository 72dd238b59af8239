export { SessionScreen as default } from './session-screen.tsx';
