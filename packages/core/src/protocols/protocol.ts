/** A test: phases, defaults and setup fields as data, never code. */
export interface Protocol {
  readonly id: string;
  readonly version: number;
  readonly title: string;
  readonly summary: string;
  /** `weight`: the athlete's body weight rests on the plates. `none`: force or torque channels without body weight. */
  readonly load: 'weight' | 'none';
  /** Which limb the test loads. `single`: one foot on its plate, the other plate must stay unloaded. */
  readonly limbs: 'both' | 'left' | 'right' | 'any';
  /** Results of different pools are never averaged or compared (a long pull and an explosive one). */
  readonly pool: string;
  /** What the operator says, word for word. */
  readonly cue: string;
  readonly pullSeconds: { readonly planned: number; readonly warnUnder: number; readonly failUnder: number };
  readonly restSeconds: number;
  readonly maximalTrials: { readonly minimum: number; readonly planned: number; readonly maximum: number };
  /** Set in a jump test: it is analysed by a jump method, and `pullSeconds` says nothing of it. */
  readonly jump?: JumpTest;
  /** Parameters that a test without body weight may set: unit and baseline length. */
  readonly parameters?: { readonly unit: string; readonly baselineSeconds: number };
  readonly setupFields: readonly SetupField[];
  readonly cautions: readonly string[];
  readonly sources: readonly string[];
}

/** Kinds of jump, told apart because their events and metrics differ. */
export type JumpKind = 'countermovement' | 'squat' | 'drop' | 'repeated';

/** What makes a test a jump test. A jump on one leg says so by `limbs`, a load and a box by setup fields. */
export interface JumpTest {
  readonly kind: JumpKind;
  /** True when a weight is carried: W is that of body and load together, the load stands in the setup field `load` (kg). */
  readonly loaded: boolean;
}

/** One field of an athlete's setup, recalled next time. */
export interface SetupField {
  readonly id: string;
  readonly title: string;
  readonly unit?: string;
  readonly kind: 'number' | 'choice' | 'text' | 'yes-no';
  readonly choices?: readonly string[];
  readonly required: boolean;
}
