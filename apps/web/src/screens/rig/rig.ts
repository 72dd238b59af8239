export { RigScreen as default } from './rig-screen.tsx';
