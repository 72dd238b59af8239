export { ReturnScreen as default } from './return-screen.tsx';
