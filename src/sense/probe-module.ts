/** What makes counts of the water: a module with an analog output, or a bare cell that the board drives itself. */
export type ProbeModule = AnalogModule | BareCell;

/** What was bought: the module's printed range and the converter that reads it. Counts rise in proportion. */
export interface AnalogModule {
  /** µS/cm that the module would mean at full scale with a cell of nominal constant. */
  readonly fullScaleMicrosiemensPerCm: number;
  /** 10 when absent. */
  readonly bits?: number | undefined;
}

/**
 * A cell in series with a resistor, driven both ways by the board, which tells 1023 · R / (R + cell): the section on
 * the probe in docs/board-protocol.md.
 */
export interface BareCell {
  readonly seriesOhms: number;
  /** Cell constant K, 1/cm: the resistance of the cell is K over the conductivity. */
  readonly cellPerCm: number;
}

const BITS = 10;
/** Full scale of what the board tells of a bare cell. */
const CELL_FULL_SCALE = 1023;
/** Counts from either end that are still the end: the ATmega328P's converter is true to ±2 counts. */
const RAIL_COUNTS = 2;
/**
 * Above this the ±2 counts of the converter are more than 5 % of a cell's conductivity, which goes with
 * n / (1023 − n) and grows without end: dσ/σ = 1023 dn / (n (1023 − n)).
 */
const CELL_COUNTS_MAX = 981;

export const moduleKind = (module: ProbeModule): 'module' | 'cell' =>
  'seriesOhms' in module ? 'cell' : 'module';

/** The highest count that the converter behind this module knows. */
const highestCount = (module: ProbeModule): number =>
  'seriesOhms' in module ? CELL_FULL_SCALE : (1 << (module.bits ?? BITS)) - 1;

/** Whether a count can come from the module's converter; a mean of counts may. */
export const isCount = (count: number, module: ProbeModule): boolean =>
  count >= 0 && count <= highestCount(module);

/** Whether the signal stands at the top of its range, where it no longer follows the water. */
export const isAtTop = (counts: number, module: ProbeModule): boolean =>
  'seriesOhms' in module ? counts > CELL_COUNTS_MAX : counts >= highestCount(module) - RAIL_COUNTS;

/** Whether a bare cell has no resistance that could be told from none; of a module nobody could say. */
export const isShorted = (counts: number, module: ProbeModule): boolean =>
  'seriesOhms' in module && counts >= CELL_FULL_SCALE - RAIL_COUNTS;

/** Whether the signal cannot be told from none. */
export const isAtBottom = (counts: number): boolean => counts <= RAIL_COUNTS;

/** µS/cm that a count means, before any calibration; of a shorted cell without end. */
export const signalMicrosiemensPerCm = (counts: number, module: ProbeModule): number => {
  if (!('seriesOhms' in module)) {
    return (counts * module.fullScaleMicrosiemensPerCm) / (highestCount(module) + 1);
  }
  const { seriesOhms, cellPerCm } = module;
  return ((1e6 * cellPerCm) / seriesOhms) * (counts / (CELL_FULL_SCALE - counts));
};

/** The strongest solution that can be told, µS/cm. */
export const strongestMicrosiemensPerCm = (module: ProbeModule): number =>
  'seriesOhms' in module
    ? signalMicrosiemensPerCm(CELL_COUNTS_MAX, module)
    : module.fullScaleMicrosiemensPerCm;

/** µS/cm at a small share of the converter's scale: how far a zero may be off. */
export const signalAtShare = (share: number, module: ProbeModule): number =>
  'seriesOhms' in module
    ? signalMicrosiemensPerCm(share * CELL_FULL_SCALE, module)
    : share * module.fullScaleMicrosiemensPerCm;

/** Whether both make the same counts of the same water. */
export const isSameModule = (one: ProbeModule, other: ProbeModule): boolean => {
  if ('seriesOhms' in one || 'seriesOhms' in other) {
    return (
      'seriesOhms' in one &&
      'seriesOhms' in other &&
      one.seriesOhms === other.seriesOhms &&
      one.cellPerCm === other.cellPerCm
    );
  }
  return one.fullScaleMicrosiemensPerCm === other.fullScaleMicrosiemensPerCm;
};
