import type { RigView } from '@sthene/contract';

const outlines: Record<RigView['shape'], string> = {
  circle: 'M15 2a13 13 0 1 0 .01 0z',
  square: 'M3 3h24v24H3z',
  triangle: 'M15 1L29 28H1z',
  diamond: 'M15 1l14 14-14 14L1 15z',
};

/** The letter of a rig in its shape; the name always stands beside it. */
export function RigLetter({ letter, shape, size = 30 }: { letter: string; shape: RigView['shape']; size?: number }) {
  return (
    <svg className="rig-letter" viewBox="0 0 30 30" width={size} height={size} aria-hidden="true" focusable="false">
      <path d={outlines[shape]} fill="none" stroke="currentColor" strokeWidth="1.8" strokeLinejoin="round" />
      <text x="15" y={shape === 'triangle' ? 24 : 19.7} textAnchor="middle">
        {letter}
      </text>
    </svg>
  );
}
