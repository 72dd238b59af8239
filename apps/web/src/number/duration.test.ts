import { describe, expect, it } from 'vitest';
import { countdownText, durationText } from './duration.ts';

describe('durationText', () => {
  it('says what a person would say', () => {
    expect(durationText(-3)).toBe('0\u00a0s');
    expect(durationText(119)).toBe('119\u00a0s');
    expect(durationText(120)).toBe('2\u00a0min');
    expect(durationText(7199)).toBe('2\u00a0h');
    expect(durationText(5_000)).toBe('83\u00a0min');
    expect(durationText(8_400)).toBe('2\u00a0h 20\u00a0min');
    expect(durationText(5 * 86_400)).toBe('5\u00a0days');
  });
});

describe('countdownText', () => {
  it('reaches 0:00 only when the time is over', () => {
    expect(countdownText(125)).toBe('2:05');
    expect(countdownText(0.2)).toBe('0:01');
    expect(countdownText(60)).toBe('1:00');
    expect(countdownText(0)).toBe('0:00');
    expect(countdownText(-12)).toBe('0:00');
  });
});
