import { type Ink, inks, type Palette } from './scene.ts';

/**
 * The colours of the theme in force, as the stylesheet resolves them. A probe element is asked, because the value of a
 * custom property itself is unresolved text.
 */
export function themePalette(host: HTMLElement = document.body): Palette {
  const probe = document.createElement('i');
  probe.hidden = true;
  host.append(probe);
  const palette = {} as Record<Ink, string>;
  for (const ink of inks) {
    probe.style.color = `var(--${ink})`;
    palette[ink] = getComputedStyle(probe).color;
  }
  probe.remove();
  return palette;
}

/** Colours of exports: always the light theme on white, so that a figure looks the same in every document. */
export const exportPalette: Palette = {
  paper: '#ffffff',
  panel: '#ffffff',
  grid: '#e6eeec',
  'grid-strong': '#c3d4cf',
  ink: '#16211e',
  'ink-soft': '#4f5b56',
  line: '#d6cfba',
  'line-strong': '#857f6c',
  pen: '#b23a12',
  left: '#00694e',
  right: '#98356f',
  counts: '#1d6b4f',
  look: '#815300',
  repeat: '#a3260f',
  band: '#f0e9d2',
  'band-pen': '#f6e2d6',
  'other-1': '#1f5fa8',
  'other-2': '#7a5b00',
  'other-3': '#5b4a9c',
  focus: '#1a4fa3',
};
