export { ProtocolScreen as default } from './protocol-screen.tsx';
