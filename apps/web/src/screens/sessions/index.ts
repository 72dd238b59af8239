export { SessionsScreen as default } from './sessions-screen.tsx';
