import { arcsine } from '../../src/physics/portable-trigonometry.ts';
import { sunElevationSine } from '../../src/physics/sun.ts';
import { bounded } from '../../src/units/bounded.ts';

/** Height of the sun's centre over the level horizon, without refraction. Meeus eq. 13.6. East is positive. */
export const sunElevationRadians = (
  epochMillis: number,
  latitudeDegrees: number,
  longitudeDegrees: number,
): number => arcsine(bounded(sunElevationSine(epochMillis, latitudeDegrees, longitudeDegrees), -1, 1));
