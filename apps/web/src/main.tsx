import { createRoot } from 'react-dom/client';
import { App } from './app/app.tsx';
import './theme/tokens.css';
import './theme/base.css';
import { startTheme } from './theme/theme.ts';

startTheme();
const root = document.getElementById('root');
if (root) createRoot(root).render(<App />);
