export { CheckScreen as default } from './check-screen.tsx';
