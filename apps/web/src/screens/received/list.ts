export { ReceivedScreen as default } from './received-screen.tsx';
