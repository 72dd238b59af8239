import type { LiveClient } from './live-client.ts';

/**
 * The operator of a guided day: puts whoever is next on the rig, confirms the setup and gives the cue when the tension is
 * steady. Does it again where a count was broken off.
 */
export function guide(client: LiveClient, rig: string, entries: () => string | undefined): { stop(): void } {
  let running = true;
  void (async () => {
    while (running && client.closed === undefined) {
      await new Promise((done) => setTimeout(done, 20));
      const floor = client.floor(rig);
      if (floor === undefined) continue;
      try {
        if (floor.phase === 'waiting' || floor.phase === 'rest') {
          const entry = entries();
          if (entry !== undefined && entry !== floor.turn?.entry) await client.command(rig, 'begin', { entry });
        } else if (floor.phase === 'set-up') await client.command(rig, 'advance');
        else if (floor.phase === 'ready') await client.command(rig, 'cue');
        else if (floor.phase === 'verdict') await client.command(rig, 'advance');
      } catch {
        return;
      }
    }
  })();
  return {
    stop() {
      running = false;
    },
  };
}
