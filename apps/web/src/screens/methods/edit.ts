export { EditMethodScreen as default } from './edit-screen.tsx';
