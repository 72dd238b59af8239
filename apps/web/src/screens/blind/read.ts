export { ReadScreen as default } from './read-screen.tsx';
