export { GuideScreen as default } from './guide-screen.tsx';
