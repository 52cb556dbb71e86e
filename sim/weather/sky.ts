import type { WallMillis } from '../../src/time/instant.ts';

/** The air over the benches at one moment. */
export interface Air {
  readonly airCelsius: number;
  /** Pressure of the water vapour in the air, never above saturation. */
  readonly vapourKilopascals: number;
  /** Global radiation on the horizontal, in the open: nets, film and glass are the plant's concern. */
  readonly sunWattsPerSquareMetre: number;
  readonly windMetresPerSecond: number;
}

/** Weather over a stretch of time, from whatever source; a pure function of the moment. */
export interface Sky {
  /** The first moment for which `at` answers. */
  readonly start: WallMillis;
  /** The last moment for which `at` answers; itself still answered. */
  readonly end: WallMillis;
  /** @throws BrokenAssertion when the moment lies before `start` or after `end` */
  readonly at: (epochMillis: number) => Air;
}
