export { ResultsScreen as default } from './results-screen.tsx';
