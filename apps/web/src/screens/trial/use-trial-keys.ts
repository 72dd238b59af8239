import { useEffect, useRef } from 'react';
import type { CurveController } from '../../curve/controller.ts';
import { type CurveModel, instantOf, wholeOf } from '../../curve/model.ts';
import { following } from '../../curve/view.ts';
import { readPreference } from '../../data/preferences.ts';
import { effortView, riseView } from './fits.ts';
import type { Result } from './numbers.ts';
import { nextStop, type Stop } from './stops.ts';

interface Subject {
  readonly controller: CurveController;
  readonly model: CurveModel;
  readonly result: Result;
  readonly stops: readonly Stop[];
  readonly hasDialog: boolean;
}

interface Acts {
  undo(): void;
  redo(): void;
  moveOnset(): void;
  trial(by: 1 | -1): void;
  help(): void;
}

/** Goes to the next or previous event and reads it. */
export function goToStop(
  { controller, model, stops }: Pick<Subject, 'controller' | 'model' | 'stops'>,
  direction: 1 | -1,
): void {
  const stop = nextStop(stops, controller.state().overlay.cursor, direction);
  if (!stop) return;
  controller.setCursor(stop.at, true);
  controller.setView(following(controller.state().view, instantOf(model, stop.at)));
}

const writable = (target: EventTarget | null) =>
  target instanceof HTMLElement &&
  target.matches('input:not([type=radio], [type=checkbox]), textarea, select, [contenteditable]');

const inDialog = (target: EventTarget | null) => target instanceof Element && target.closest('dialog') !== null;

/** Single letters work anywhere on the page but in fields, and can be switched off; Ctrl+Z always works. */
export function useTrialKeys(subject: Subject, acts: Acts): void {
  const now = useRef({ subject, acts });
  now.current = { subject, acts };
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      const { subject, acts } = now.current;
      if (subject.hasDialog || event.defaultPrevented || writable(event.target) || inDialog(event.target)) return;
      const key = event.key.toLowerCase();
      if ((event.ctrlKey || event.metaKey) && !event.altKey) {
        if (key === 'z' && !event.shiftKey) acts.undo();
        else if ((key === 'z' && event.shiftKey) || key === 'y') acts.redo();
        else return;
        event.preventDefault();
        return;
      }
      if (event.altKey || readPreference('letter-keys') === 'off') return;
      const act = letter(key, subject, acts);
      if (!act) return;
      event.preventDefault();
      act();
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, []);
}

function letter(key: string, subject: Subject, acts: Acts): (() => void) | undefined {
  const { controller, model, result } = subject;
  const { cursor } = controller.state().overlay;
  const { view } = controller.state();
  const middle = Math.round(((view.from + view.to) / 2 - model.start) * model.rate);
  switch (key) {
    case '+':
    case '=':
      return () => controller.zoom(1 / 1.5);
    case '-':
      return () => controller.zoom(1.5);
    case '0':
      return () => controller.setView(wholeOf(model));
    case 'f':
      return () => controller.setView(effortView(model, result));
    case 'r':
      return () => controller.setView(riseView(model, result));
    case 'a':
    case 'b':
      return () => controller.setMarker(key, cursor ?? middle);
    case 'x':
      return () => {
        controller.setMarker('a', undefined);
        controller.setMarker('b', undefined);
      };
    case 'n':
      return () => goToStop(subject, 1);
    case 'p':
      return () => goToStop(subject, -1);
    case 'y':
      return () => controller.setForceFit(controller.state().forceFit === 'whole' ? 'window' : 'whole');
    case 'o':
      return acts.moveOnset;
    case '[':
      return () => acts.trial(-1);
    case ']':
      return () => acts.trial(1);
    case '?':
      return acts.help;
    default:
      return undefined;
  }
}
