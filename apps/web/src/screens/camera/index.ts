export { CameraScreen as default } from './camera-screen.tsx';
