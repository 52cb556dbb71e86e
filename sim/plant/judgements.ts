/**
 * What nobody has measured on this farm, with its range. Every figure is an engineering judgement that only
 * a field test can settle, unless its line says otherwise. Central values are for a bench of 300 plants on
 * 72 m of channel; `bench.ts` scales them.
 */
export interface Doubt {
  readonly least: number;
  readonly central: number;
  readonly most: number;
  /** Nothing lies between the three: the outer ones are drawn in a quarter of the runs each. */
  readonly onlyThese?: true;
}

/** The length of channel that the figures below are for: a scale, not a doubt. */
export const CHANNEL_METRES = 72;

export const DOUBTS = {
  /** Flow against the bucket-and-stopwatch figure of the farm file, which is itself good to a tenth. */
  flowFactor: { least: 0.9, central: 1, most: 1.1 },
  /** Drain coefficient k of x' = −k·x^1.5, L^-0.5/min: half of 40 L gone in 3.3 min. Other exponents: see `drain.ts`. */
  drainCoefficient: { least: 0.02, central: 0.0395, most: 0.1 },
  /** Drainable water at which half of the roots are wetted, L. */
  wettingLitres: { least: 2, central: 5, most: 10 },
  refillPerMinute: { least: 0.05, central: 0.15, most: 0.3 },
  /** Holding capacity against the formula of `physics/holding`: the main unknown. */
  capacityFactor: { least: 0.75, central: 1, most: 1.25 },
  /** θ below which uptake falls; FAO-56 table 22 gives p = 0.30 for lettuce in soil. */
  stressTheta: { least: 0.4, central: 0.5, most: 0.7 },
  /** Coefficients A and B of the glasshouse form (Baille, Baille and Laury 1994; values not theirs). */
  radiationShare: { least: 0.2, central: 0.45, most: 0.6 },
  deficitWatts: { least: 10, central: 18, most: 30 },
  /** Heat exchange of the channels with the air, L/min of water equivalent. */
  airExchangeLitresPerMinute: { least: 2, central: 3.3, most: 6 },
  /** Re-aeration kLA at 20 °C, L/min: 25 mm/h over 3.75 m² of still water. */
  aerationLitresPerMinute: { least: 0.3, central: 1.56, most: 6 },
  /** Oxygen that wet roots use at 25 °C, mg per gram of dry root and hour. */
  respirationMilligrams: { least: 1.5, central: 2.9, most: 5 },
  /** Factor of that use for 10 °C more; the range stands in print for whole lettuce, see physics/q10. */
  respirationQ10: { least: 1.4, central: 1.7, most: 1.75 },
  /** Share of the film that a cup without roots takes up, against a rooted one. */
  cupContact: { least: 0.15, central: 0.35, most: 0.7 },
  /** Wet surface of a started cup, m². */
  cupSquareMetres: { least: 0.001, central: 0.0016, most: 0.0025 },
  /** Leaf area against the growth curve of the crop: a plant of one age is small in one house and large in the next. */
  leafFactor: { least: 0.8, central: 1, most: 1.25 },
  /** Dry share of fresh roots, and the share of them that is under water and breathes from it. */
  rootDryShare: { least: 0.05, central: 0.06, most: 0.08 },
  rootSubmergedShare: { least: 0.25, central: 0.4, most: 0.6 },
  /** Mixing of held and flowing water, 1/min. */
  mixingPerMinute: { least: 0.15, central: 0.3, most: 0.6 },
  /** m of the drain: 1 where water seeps through a mat of roots, 1.5 in a part-full pipe (Manning gives 1.44), or 2. */
  drainExponent: { least: 1, central: 1.5, most: 2, onlyThese: true },
  /**
   * K of the canopy (Monsi & Saeki 1953), which also gives the cover. No value for a lettuce was found in print; leaves
   * that look every way have 0.5 under a high sun, and flat black ones 1.
   */
  extinction: { least: 0.5, central: 0.64, most: 0.8 },
  /** Openness of the leaves in the dark, and the sun that opens half of the rest, W/m². */
  openShareInDark: { least: 0.15, central: 0.35, most: 0.6 },
  halfOpenWatts: { least: 20, central: 50, most: 120 },
  /** Days by which a crop runs ahead of the growth curve of its traits, or behind: a cool fortnight or a warm one. */
  aheadDays: { least: -5, central: 0, most: 5 },
  /** Growth per day against that of its traits. */
  growthFactor: { least: 0.8, central: 1, most: 1.25 },
  /** Fresh mass of the roots against that of the traits at this age; it moves both what they hold and what they breathe. */
  rootFactor: { least: 0.6, central: 1, most: 1.4 },
  /** Roots with which a started cup stands in the film like any other, g. */
  rootGramsInFilm: { least: 0.5, central: 1.5, most: 3 },
  /** Water equivalent of pipe and roots, L: 30 to 60 kg of plastic at a quarter of the heat of water, and young or full roots. */
  pipeLitres: { least: 8, central: 16, most: 24 },
  /** Warming of a bare channel by the sun, K·L/min per W/m²: 5.4 m² of pipe that keep a quarter to four fifths of it. */
  sunWarming: { least: 0.02, central: 0.037, most: 0.06 },
  /** Share of that warming that a closed canopy keeps off. */
  sunWarmingShaded: { least: 0.5, central: 0.7, most: 0.9 },
  /** Heat exchange of the tank with the air, L/min of water equivalent: 6 W/K of a buried one to 42 W/K of an open one. */
  tankExchangeLitresPerMinute: { least: 0.08, central: 0.25, most: 0.6 },
  /** Salts taken up per litre drunk at full uptake, mS/cm·L per L: a tank of 1.6 mS/cm may grow weaker as well as stronger. */
  saltUptake: { least: 1, central: 1.6, most: 2.2 },
  /** Strength at which salt uptake is half of full, mS/cm. */
  saltHalfStrength: { least: 0.2, central: 0.5, most: 1 },
  /** Oxygen at which respiration is half of full, mg/L. */
  oxygenHalf: { least: 0.2, central: 0.5, most: 1 },
  /** Saturation of the water that the pump brings: the tank is stirred by the return, not more. */
  floodSaturation: { least: 0.8, central: 0.95, most: 1 },
} as const satisfies Record<string, Doubt>;

export type Judgement = keyof typeof DOUBTS;
export type Judgements = Readonly<Record<Judgement, number>>;

/** Oxygen about the roots at which growth of lettuce was unharmed, and harmed, mg/L; both stand in print, see docs/model.md. */
export const OXYGEN_HARMS = { unharmed: 2.1, harmed: 0.32 } as const;

export const JUDGEMENTS = Object.keys(DOUBTS).filter((name): name is Judgement =>
  Object.hasOwn(DOUBTS, name),
);

export const eachJudgement = (value: (doubt: Doubt, name: Judgement) => number): Judgements =>
  Object.fromEntries(JUDGEMENTS.map((name) => [name, value(DOUBTS[name], name)])) as Judgements;

export const CENTRAL: Judgements = eachJudgement((doubt) => doubt.central);

/** One draw: for each judgement the lower or upper half of its range with equal chance, evenly within it. */
export const drawnJudgements = (dice: () => number): Judgements =>
  eachJudgement(({ least, central, most, onlyThese }) => {
    const share = 2 * dice() - 1;
    if (onlyThese === true) return share < -0.5 ? least : share < 0.5 ? central : most;
    return share < 0 ? central + share * (central - least) : central + share * (most - central);
  });
