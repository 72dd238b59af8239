import {
  analyse,
  defaultMethod,
  forcesOf,
  protocolRegistry,
  recordingOf,
  simulatePull,
  standardGravity,
} from '@sthene/core';
import { useMemo } from 'react';
import { plainModel } from '../../curve/plain-model.ts';
import { PaperCurve } from '../../parts/paper-curve.tsx';
import { startWords as t } from '../../words/start.ts';
import { trialEvidence } from '../trial/evidence.ts';
import { effortView } from '../trial/fits.ts';

/** One simulated pull, computed and judged here like any other: what this is all about, at a glance. */
export default function Figure() {
  const drawn = useMemo(pull, []);
  if (!drawn) return null;
  return (
    <div className="start-figure">
      <PaperCurve model={drawn.model} view={drawn.view} summary={t.figure} />
      <p className="small soft">{t.figureNote}</p>
    </div>
  );
}

function pull() {
  const recording = recordingOf(simulatePull({ bodyMass: 74, netForce: 1950, sampleRate: 1000, hold: 3 }, 7));
  const inputs = [
    { from: { kind: 'channel', index: 0 }, part: 'left' },
    { from: { kind: 'channel', index: 1 }, part: 'right' },
  ] as const;
  const forces = forcesOf(recording, { inputs });
  const protocol = protocolRegistry.get('imtp');
  if (!forces.ok || protocol === undefined) return undefined;
  const request = { forces: forces.value, protocol, method: defaultMethod, gravity: standardGravity };
  const [result] = analyse({ ...request, efforts: 'largest' }).trials;
  if (!result) return undefined;
  const shown = result as Parameters<typeof trialEvidence>[0];
  const { sampleCount: samples } = forces.value;
  const model = plainModel({ ...forces.value, samples }, trialEvidence(shown, 'N', false));
  return { model, view: effortView(model, shown) };
}
