import { bounded } from '../units/bounded.ts';
import { arccosine, sine } from './portable-trigonometry.ts';

/**
 * A round pipe that runs part full. `depthShare` is the water depth over the diameter, taken as 0 to 1. Chow 1959,
 * Open-Channel Hydraulics, Table 2-1 and Appendix A.
 */

/** Angle at the centre over the water surface in radians: 0 empty, π half full, 2π full. Chow 1959, Table 2-1. */
export const wettedAngleRadians = (depthShare: number): number =>
  2 * arccosine(1 - 2 * bounded(depthShare, 0, 1));

/** Cross-section of the water, m²: D²(θ − sin θ)/8. Chow 1959, Table 2-1. */
export const flowAreaSquareMetres = (diameterMetres: number, depthShare: number): number => {
  const angle = wettedAngleRadians(depthShare);
  return (diameterMetres * diameterMetres * (angle - sine(angle))) / 8;
};

/** Length of pipe wall under water, m: Dθ/2. Chow 1959, Table 2-1. */
export const wettedPerimeterMetres = (diameterMetres: number, depthShare: number): number =>
  (diameterMetres * wettedAngleRadians(depthShare)) / 2;

/** Area over wetted perimeter, m; 0 in an empty pipe. Chow 1959, Table 2-1. */
export const hydraulicRadiusMetres = (diameterMetres: number, depthShare: number): number =>
  depthShare > 0
    ? flowAreaSquareMetres(diameterMetres, depthShare) / wettedPerimeterMetres(diameterMetres, depthShare)
    : 0;
