export { type RunningStation, type StationOptions, startStation } from './start-station.ts';
