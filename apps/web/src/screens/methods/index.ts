export { MethodsScreen as default } from './methods-screen.tsx';
