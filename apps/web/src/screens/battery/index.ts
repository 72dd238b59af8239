export { BatteryScreen as default } from './battery-screen.tsx';
