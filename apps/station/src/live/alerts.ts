import type { AlertView } from '@sthene/contract';

type Raised = Pick<AlertView, 'severity' | 'code' | 'words' | 'next'> & { readonly rig?: string };

/** Things people should know, the same one grouped; a later success takes it away. */
export class Alerts {
  readonly #open = new Map<string, AlertView>();

  get list(): AlertView[] {
    return [...this.#open.values()];
  }

  raise(alert: Raised): AlertView {
    const id = keyOf(alert.code, alert.rig);
    const raised = { ...alert, id, count: (this.#open.get(id)?.count ?? 0) + 1 };
    this.#open.set(id, raised);
    return raised;
  }

  /** @returns the id of the alert that is over, if there was one */
  clear(code: string, rig?: string): string | undefined {
    const id = keyOf(code, rig);
    return this.#open.delete(id) ? id : undefined;
  }

  clearRig(rig: string): string[] {
    const gone = this.list.filter((one) => one.rig === rig).map(({ id }) => id);
    for (const id of gone) this.#open.delete(id);
    return gone;
  }
}

const keyOf = (code: string, rig: string | undefined): string => (rig === undefined ? code : `${code}@${rig}`);
