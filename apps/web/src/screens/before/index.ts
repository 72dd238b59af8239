export { BeforeScreen as default } from './before-screen.tsx';
