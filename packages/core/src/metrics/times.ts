/** Milliseconds after the onset at which force and rate from the onset are given. */
export const forceTimes = [50, 90, 100, 150, 200, 250, 300] as const;

/** Milliseconds after the onset up to which impulse is given. */
export const impulseTimes = [50, 100, 150, 200, 250, 300] as const;

/** Sources of the time points and bands. */
export const timePointSource =
  'Beckham et al. 2018, J Strength Cond Res 32(1):48-56; Moeskops et al. 2018, J Strength Cond Res 32(7):1892-1901';
export const bandSource =
  'Haff et al. 2015, J Strength Cond Res 29(2):386-395 (bands; here as change of force over time)';
export const impulseSource = 'Brady et al. 2018, Int J Sports Physiol Perform 13(7):844-852 (bands)';

/** How the two sides are spelled in ids and titles. */
export const sides = ['left', 'right'] as const;
export const sideTitle = { left: 'Left', right: 'Right' } as const;
export const sideLetter = { left: 'L', right: 'R' } as const;
