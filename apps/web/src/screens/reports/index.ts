export { ReportsScreen as default } from './reports-screen.tsx';
