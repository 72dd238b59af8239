export { BlindScreen as default } from './blind-screen.tsx';
