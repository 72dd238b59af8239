export { ProtocolsScreen as default } from './protocols-screen.tsx';
