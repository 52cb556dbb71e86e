/** Water of a shed never leaves this range; beyond it the value at the end stands. */
const CELSIUS = { least: -10, most: 70 } as const;
const STEPS_PER_CELSIUS = 8;
const STEPS = (CELSIUS.most - CELSIUS.least) * STEPS_PER_CELSIUS;

/**
 * A smooth law of the water's temperature as straight lines an eighth of a degree long: it is asked for at every step of
 * every bench, and its exponentials would take longer than all the rest. The last value stands twice, so that a next one
 * always follows.
 */
export const tableByCelsius = (law: (celsius: number) => number): Float64Array =>
  Float64Array.from({ length: STEPS + 2 }, (_, step) =>
    law(CELSIUS.least + Math.min(step, STEPS) / STEPS_PER_CELSIUS),
  );

/** Where a temperature stands in every such table. */
export const placeInTables = (celsius: number): number => {
  const place = (celsius - CELSIUS.least) * STEPS_PER_CELSIUS;
  return place > 0 ? Math.min(place, STEPS) : 0;
};

/** What the table holds at that place. */
export const tabled = (table: Float64Array, place: number): number => {
  const step = Math.floor(place);
  const before = table[step] ?? NaN;
  return before + ((table[step + 1] ?? NaN) - before) * (place - step);
};
