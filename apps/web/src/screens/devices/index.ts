export { DevicesScreen as default } from './devices-screen.tsx';
