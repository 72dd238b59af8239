import type { Method } from '@sthene/core';
import type { JudgingBasis } from '@sthene/store';
import type { OpenLab } from '../../../labs/open-lab.ts';
import type { OriginFacts } from '../../../live/rig/keep-trial.ts';
import { asRunBy } from '../../analyse-trial.ts';
import { faultOfTrial } from './fault.ts';
import { hashOf } from './judge-order.ts';
import type { JudgingOrder, Made, OrderedTrial } from './order.ts';

/** Trials of one order at most: small enough that two threads share a large file, large enough that a message is worth it. */
const mostOfOrder = 16;

/** An order with what its trials were judged from, and trials that cannot even be ordered. */
export interface Orders {
  readonly orders: readonly { readonly order: JudgingOrder; readonly bases: readonly JudgingBasis[] }[];
  readonly refused: readonly { readonly basis: JudgingBasis; readonly made: Made }[];
}

/** Makes orders of trials, those of one file together, each with test and method as its session's protocol has them. */
export class Ordering {
  readonly #lab: OpenLab;
  readonly #method: Method;
  readonly #asRun = new Map<string, ReturnType<typeof asRunBy>>();
  readonly #names = new Map<string, Promise<string>>();

  constructor(lab: OpenLab, method: Method) {
    this.#lab = lab;
    this.#method = method;
  }

  async of(bases: readonly JudgingBasis[]): Promise<Orders> {
    const groups = new Map<string, { trials: OrderedTrial[]; bases: JudgingBasis[] }[]>();
    const refused: { basis: JudgingBasis; made: Made }[] = [];
    for (const basis of bases) {
      try {
        const ordered = await this.#ordered(basis);
        const key = `${basis.trial.recording} ${JSON.stringify(basis.trial.reading ?? {})}`;
        const pieces = groups.get(key) ?? [];
        groups.set(key, pieces);
        const last = pieces.at(-1);
        if (last === undefined || last.trials.length === mostOfOrder)
          pieces.push({ trials: [ordered], bases: [basis] });
        else {
          last.trials.push(ordered);
          last.bases.push(basis);
        }
      } catch (error) {
        refused.push({ basis, made: faultOfTrial(error) });
      }
    }
    const orders = [...groups.values()].flat().map(({ trials, bases: own }) => {
      const [{ trial, file }] = own as [JudgingBasis];
      const order: JudgingOrder = {
        recording: trial.recording ?? '',
        ...(file === undefined ? {} : { file }),
        reading: trial.reading ?? {},
        trials,
      };
      return { order, bases: own };
    });
    return { orders, refused };
  }

  async #ordered({ trial, session, effective, facts }: JudgingBasis): Promise<OrderedTrial> {
    const { protocol, method, jumpMethod } = await this.#asRunBy(session);
    const hand = effective.onsetByHand;
    const { recordingLabel, forceSelection, span, cue } = trial;
    return {
      trial: {
        ...(recordingLabel === undefined ? {} : { recordingLabel }),
        ...(forceSelection === undefined ? {} : { forceSelection }),
        ...(span === undefined ? {} : { span }),
        ...(cue === undefined ? {} : { cue }),
      },
      session: {
        protocol: session.protocol,
        gravity: session.gravity,
        setup: session.setup,
        ...(session.bodyWeight === undefined ? {} : { bodyWeight: session.bodyWeight }),
      },
      ...(protocol.jump === undefined
        ? { protocol, method, sha256: hashOf(method) }
        : { protocol, method, jumpMethod, sha256: hashOf(jumpMethod) }),
      ...(facts === undefined ? {} : { live: facts as unknown as OriginFacts }),
      ...(hand === undefined
        ? {}
        : { hand: { index: hand.payload.index, by: await this.#nameOf(hand.by), reason: hand.reason } }),
    };
  }

  /** Sessions of an archive come by the same few protocols again and again. */
  #asRunBy(session: JudgingBasis['session']): ReturnType<typeof asRunBy> {
    const key = `${session.protocol.id} ${session.protocol.sha256 ?? ''}`;
    const known = this.#asRun.get(key) ?? asRunBy(this.#lab, session, this.#method, true);
    this.#asRun.set(key, known);
    return known;
  }

  #nameOf(account: string): Promise<string> {
    const known = this.#names.get(account) ?? this.#lab.nameOf(account);
    this.#names.set(account, known);
    return known;
  }
}
