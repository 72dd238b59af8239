import { QueryClient, QueryClientProvider } from '@tanstack/react-query';
import { lazy, StrictMode, Suspense } from 'react';
import { BrowserRouter, Navigate, Route, Routes } from 'react-router';
import { words } from '../words/index.ts';
import { AccessGate } from './access-gate.tsx';
import { askAhead } from './ahead.ts';
import { Frame } from './frame.tsx';
import { NotFound } from './not-found.tsx';

const TrialScreen = lazy(() => import('../screens/trial/index.ts'));
const SessionsScreen = lazy(() => import('../screens/sessions/index.ts'));
const SessionScreen = lazy(() => import('../screens/sessions/session.ts'));
const AthletesScreen = lazy(() => import('../screens/athletes/index.ts'));
const AthleteScreen = lazy(() => import('../screens/athlete/index.ts'));
const BatteryScreen = lazy(() => import('../screens/battery/index.ts'));
const ReturnScreen = lazy(() => import('../screens/return/index.ts'));
const TodayScreen = lazy(() => import('../screens/today/index.ts'));
const BeforeScreen = lazy(() => import('../screens/before/index.ts'));
const NormsScreen = lazy(() => import('../screens/norms/index.ts'));
const BlindScreen = lazy(() => import('../screens/blind/index.ts'));
const BlindReadScreen = lazy(() => import('../screens/blind/read.ts'));
const BlindResultsScreen = lazy(() => import('../screens/blind/results.ts'));
const ReliabilityScreen = lazy(() => import('../screens/reliability/index.ts'));
const ReportsScreen = lazy(() => import('../screens/reports/index.ts'));
const ImportScreen = lazy(() => import('../screens/import/index.ts'));
const ResultsScreen = lazy(() => import('../screens/received/index.ts'));
const ReceivedScreen = lazy(() => import('../screens/received/list.ts'));
const StartScreen = lazy(() => import('../screens/start/index.ts'));
const DaysScreen = lazy(() => import('../screens/day/index.ts'));
const DayScreen = lazy(() => import('../screens/day/day.ts'));
const RigsScreen = lazy(() => import('../screens/rig/index.ts'));
const RigScreen = lazy(() => import('../screens/rig/rig.ts'));
const RigCheckScreen = lazy(() => import('../screens/rig/check/index.ts'));
const SourceScreen = lazy(() => import('../screens/rig/source.ts'));
const RigChoice = lazy(() => import('../screens/day/rig-choice.tsx'));
const ProtocolsScreen = lazy(() => import('../screens/protocols/index.ts'));
const ProtocolScreen = lazy(() => import('../screens/protocols/protocol.ts'));
const EditProtocolScreen = lazy(() => import('../screens/protocols/edit.ts'));
const MethodsScreen = lazy(() => import('../screens/methods/index.ts'));
const MethodScreen = lazy(() => import('../screens/methods/method.ts'));
const EditMethodScreen = lazy(() => import('../screens/methods/edit.ts'));
const RunScreen = lazy(() => import('../screens/methods/run.ts'));
const NearestScreen = lazy(() => import('../screens/methods/nearest.ts'));
const GuideScreen = lazy(() => import('../screens/start/guide.ts'));
const FloorScreen = lazy(() => import('../screens/floor/index.ts'));
const WallScreen = lazy(() => import('../screens/wall/index.ts'));
const WallHome = lazy(() => import('../screens/devices/wall.ts'));
const DevicesScreen = lazy(() => import('../screens/devices/index.ts'));
const PairScreen = lazy(() => import('../screens/devices/pair.ts'));
const CameraScreen = lazy(() => import('../screens/camera/index.ts'));

// The station is on this machine or in this room: a second try helps against a hiccup, more only delay the answer.
const client = new QueryClient({
  defaultOptions: {
    queries: {
      retry: 1,
      retryDelay: 400,
      staleTime: 5_000,
      // Coming back to a page that shows a problem must not make it flicker; the button there tries again.
      refetchOnWindowFocus: (query) => query.state.data !== undefined,
      networkMode: 'always',
    },
    mutations: { networkMode: 'always' },
  },
});

askAhead(client, window.location.pathname);

/** Every route of the interface; each screen is a part of its own that loads when it is first opened. */
export function App() {
  return (
    <StrictMode>
      <QueryClientProvider client={client}>
        <BrowserRouter>
          <AccessGate>
            <Frame>
              <Suspense
                fallback={
                  <p className="waiting" role="status">
                    {words.app.loading}
                  </p>
                }
              >
                <Routes>
                  <Route path="/" element={<StartScreen />} />
                  <Route path="/guide" element={<GuideScreen />} />
                  <Route path="/:lab" element={<Navigate to="sessions" replace />} />
                  <Route path="/:lab/sessions" element={<SessionsScreen />} />
                  <Route path="/:lab/sessions/:id" element={<SessionScreen />} />
                  <Route path="/:lab/athletes" element={<AthletesScreen />} />
                  <Route path="/:lab/athletes/:id" element={<AthleteScreen />} />
                  <Route path="/:lab/athletes/:id/return" element={<ReturnScreen />} />
                  <Route path="/:lab/athletes/:id/battery" element={<BatteryScreen />} />
                  <Route path="/:lab/today" element={<TodayScreen />} />
                  <Route path="/:lab/before" element={<BeforeScreen />} />
                  <Route path="/:lab/norms" element={<NormsScreen />} />
                  <Route path="/:lab/reliability" element={<ReliabilityScreen />} />
                  <Route path="/:lab/blind" element={<BlindScreen />} />
                  <Route path="/:lab/blind/:id" element={<BlindResultsScreen />} />
                  <Route path="/:lab/blind/:id/read/:reader" element={<BlindReadScreen />} />
                  <Route path="/:lab/reports" element={<ReportsScreen />} />
                  <Route path="/:lab/import" element={<ImportScreen />} />
                  <Route path="/:lab/import/received" element={<ReceivedScreen />} />
                  <Route path="/:lab/import/results/:upload" element={<ResultsScreen />} />
                  <Route path="/:lab/trials/:id" element={<TrialScreen />} />
                  <Route path="/:lab/day" element={<DaysScreen />} />
                  <Route path="/:lab/day/:id" element={<DayScreen />} />
                  <Route path="/:lab/rig" element={<RigsScreen />} />
                  <Route path="/:lab/rig/:id" element={<RigScreen />} />
                  <Route path="/:lab/rig/:id/check" element={<RigCheckScreen />} />
                  <Route path="/:lab/rig/sources/:id" element={<SourceScreen />} />
                  <Route path="/:lab/floor" element={<RigChoice screen="floor" />} />
                  <Route path="/:lab/wall" element={<RigChoice screen="wall" />} />
                  <Route path="/:lab/protocols" element={<ProtocolsScreen />} />
                  <Route path="/:lab/protocols/new" element={<EditProtocolScreen />} />
                  <Route path="/:lab/protocols/:id" element={<ProtocolScreen />} />
                  <Route path="/:lab/protocols/:id/edit" element={<EditProtocolScreen />} />
                  <Route path="/:lab/methods" element={<MethodsScreen />} />
                  <Route path="/:lab/methods/nearest" element={<NearestScreen />} />
                  <Route path="/:lab/methods/runs/:id" element={<RunScreen />} />
                  <Route path="/:lab/methods/:id" element={<MethodScreen />} />
                  <Route path="/:lab/methods/:id/edit" element={<EditMethodScreen />} />
                  <Route path="/:lab/floor/:rig" element={<FloorScreen />} />
                  <Route path="/:lab/wall/:rig" element={<WallScreen />} />
                  <Route path="/:lab/camera/:rig" element={<CameraScreen />} />
                  <Route path="/:lab/wall/choose" element={<WallHome />} />
                  <Route path="/:lab/devices" element={<DevicesScreen />} />
                  <Route path="/pair" element={<PairScreen />} />
                  <Route path="*" element={<NotFound />} />
                </Routes>
              </Suspense>
            </Frame>
          </AccessGate>
        </BrowserRouter>
      </QueryClientProvider>
    </StrictMode>
  );
}
