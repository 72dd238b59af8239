export { EditScreen as default } from './edit-screen.tsx';
