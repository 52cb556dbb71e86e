import { flowAreaSquareMetres, hydraulicRadiusMetres } from './circle.ts';
import { power } from './portable-math.ts';

/**
 * Steady uniform flow down a slope by Manning's formula (Chow 1959, eq. 5-6). For thin films in a growing channel it
 * is the limit of an empty channel only: their Reynolds number of 2000–3000 is below its range, and a root mat
 * multiplies the roughness tenfold or more.
 */
const LITRES_PER_MINUTE_PER_CUBIC_METRE_PER_SECOND = 60_000;
/** Halvings that bring a depth to the last bit of a double. */
const HALVINGS = 60;

/**
 * Depth over diameter at which a round pipe carries most, 7.6 % more than full: root of 3θ − 5θ cos θ + 2 sin θ = 0
 * at θ = 5.2781. Chow 1959, ch. 6.
 */
export const DEPTH_SHARE_OF_MOST_FLOW = 0.93818;

/** Mean velocity, m/s, from hydraulic radius in m, slope as a share (0.02 is 2 %) and Manning's n in s m^(−1/3). */
export const manningMetresPerSecond = (hydraulicRadius: number, slope: number, roughness: number): number =>
  (power(hydraulicRadius, 2 / 3) * Math.sqrt(slope)) / roughness;

export interface SlopingPipe {
  readonly diameterMetres: number;
  /** Fall over length, above 0. */
  readonly slope: number;
  /** Manning's n, 0.009–0.011 for smooth plastic. */
  readonly roughness: number;
}

/** Flow at a water depth of 0 to the diameter, L/min. Chow 1959, eq. 5-6. */
export const manningLitresPerMinute = (pipe: SlopingPipe & { readonly depthMetres: number }): number => {
  const share = pipe.depthMetres / pipe.diameterMetres;
  const velocity = manningMetresPerSecond(
    hydraulicRadiusMetres(pipe.diameterMetres, share),
    pipe.slope,
    pipe.roughness,
  );
  return (
    velocity * flowAreaSquareMetres(pipe.diameterMetres, share) * LITRES_PER_MINUTE_PER_CUBIC_METRE_PER_SECOND
  );
};

/**
 * Water depth in m at which the pipe carries a flow: the lower of two where two do. `null` when it cannot carry it at
 * any depth. Inverse of `manningLitresPerMinute` by bisection, since flow rises with depth up to 0.938 diameters.
 */
export const manningDepthMetres = (
  pipe: SlopingPipe & { readonly litresPerMinute: number },
): number | null => {
  const { diameterMetres, slope, roughness, litresPerMinute } = pipe;
  const flowAt = (depthMetres: number): number =>
    manningLitresPerMinute({ diameterMetres, slope, roughness, depthMetres });
  if (litresPerMinute <= 0) return 0;
  let low = 0;
  let high = DEPTH_SHARE_OF_MOST_FLOW * diameterMetres;
  if (flowAt(high) < litresPerMinute) return null;
  for (let halving = 0; halving < HALVINGS; halving += 1) {
    const middle = (low + high) / 2;
    if (flowAt(middle) < litresPerMinute) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
};
