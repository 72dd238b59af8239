import type { LiveLab } from './live-lab.ts';
import { powerOf } from './power.ts';
import { WakeWatch } from './waking.ts';

/** Beats of the lab between two looks at the battery: half a minute. */
const powerEvery = 120;
/** Under this charge the warning becomes an alarm, %. */
const lowCharge = 20;

/** Looks after the machine while a day is open: whether it slept, and what it runs on. */
export class Guardian {
  readonly #live: LiveLab;
  readonly #watch: WakeWatch;
  #beats = 0;

  constructor(live: LiveLab) {
    this.#live = live;
    this.#watch = new WakeWatch(live.ports.clock);
  }

  beat(): void {
    const seconds = this.#watch.beat();
    for (const { runtime } of this.#live.rigs.values()) {
      if (seconds !== undefined) runtime.wokeUp(seconds);
      else runtime.checkRate();
    }
    if (this.#beats++ % powerEvery === 0 && this.#live.loaded !== undefined) void this.lookAtPower();
  }

  async lookAtPower(): Promise<void> {
    const live = this.#live;
    const power = await (live.ports.power ?? powerOf(process.platform))();
    if (power === undefined || power.onMains) {
      live.clear('on-battery');
      return;
    }
    const { charge } = power;
    const words = `This machine runs on its battery${charge === undefined ? '' : ` (${charge} %)`}.`;
    const severity = charge !== undefined && charge < lowCharge ? 'alarm' : 'warning';
    // The same news is not told twice.
    if (live.alerts.list.some((one) => one.code === 'on-battery' && one.words === words)) return;
    live.clear('on-battery');
    live.raise({ severity, code: 'on-battery', words, next: 'Plug it in before the next effort.' });
  }
}
