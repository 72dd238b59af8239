import type { en } from '../en/index.ts';
import { athlete } from './athlete.ts';
import { battery } from './battery.ts';
import { common } from './common.ts';
import { methods } from './methods.ts';
import { plates } from './plates.ts';
import { protocol } from './protocol.ts';
import { reliability } from './reliability.ts';
import { session } from './session.ts';
import { squad } from './squad.ts';
import { uncertainty } from './uncertainty.ts';

export const de: typeof en = {
  common,
  athlete,
  battery,
  squad,
  session,
  reliability,
  methods,
  plates,
  protocol,
  uncertainty,
};
