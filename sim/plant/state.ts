/** The true state of one bench; litres, °C, and salts as strength times volume (mS/cm·L). */
export interface BenchState {
  /** What ran into the bench in the last step, L/min. */
  inflowLitresPerMinute: number;
  drainableLitres: number;
  heldLitres: number;
  waterCelsius: number;
  /** Dissolved in the held water, mg/L. */
  oxygenMilligramsPerLitre: number;
  salts: number;
  /** Drunk since the start, L. */
  drunkLitres: number;
  /** Gone to the air from the cups since the start, L. */
  evaporatedLitres: number;
  /** When the crop that stands came onto the bench. */
  plantedMillis: number;
  /** Taken away with the roots at each replanting, less what the new cups brought, L, and the salts in it. */
  harvestedLitres: number;
  harvestedSalts: number;
  /** Salts taken up since the start, mS/cm·L. */
  saltsTakenUp: number;
}

export interface TankState {
  litres: number;
  celsius: number;
  salts: number;
  toppedUpLitres: number;
  overflowedLitres: number;
  leakedLitres: number;
  /** What stands on the floor where the leak sensor lies, L. */
  floorLitres: number;
  /** Salts that left by overflow and leak, less those that came with top-up, mS/cm·L. */
  saltsLost: number;
}

/** What is broken; acts on the plant only. */
export interface PlantFaults {
  /** Share of the pump's flow that is left: 1 well, 0 dead. */
  pumpShare: number;
  /** Share of its flow that each branch lets through. */
  branchShares: number[];
  leakLitresPerMinute: number;
  /** Share of the return that finds its way to the tank; the rest goes over the ends of the channels to the floor. */
  returnShare: number;
  /** Share of the top-up that still comes. */
  topUpShare: number;
  /** By how much the water that tops up is stronger than usual, mS/cm. */
  topUpSaltier: number;
}

export const UNBROKEN: PlantFaults = {
  pumpShare: 1,
  branchShares: [],
  leakLitresPerMinute: 0,
  returnShare: 1,
  topUpShare: 1,
  topUpSaltier: 0,
};

export interface PlantState {
  atMillis: number;
  /** Minutes since the pump last turned on or off: fine steps after an event, longer ones later. */
  minutesSinceEvent: number;
  pumpOn: boolean;
  readonly benches: BenchState[];
  readonly tank: TankState;
  readonly faults: PlantFaults;
  /** What flowed back into the tank in the last step, L/min. */
  returnLitresPerMinute: number;
  /** What the pump delivered in the last step, L/min. */
  pumpedLitresPerMinute: number;
}

/** An independent copy, to go on from twice. */
export const cloned = (state: PlantState): PlantState => ({
  ...state,
  benches: state.benches.map((bench) => ({ ...bench })),
  tank: { ...state.tank },
  faults: { ...state.faults, branchShares: [...state.faults.branchShares] },
});
