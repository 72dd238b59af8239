export { MethodScreen as default } from './method-screen.tsx';
