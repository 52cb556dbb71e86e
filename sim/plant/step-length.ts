/**
 * Steps grow with the time since the pump last turned on or off: faster while it runs, when the channels soon stand in
 * balance, and longer at rest, when little moves. Found by trial against an accurate solver.
 */
const STEP_MINUTES = {
  running: { least: 0.1, growth: 0.2, most: 1.25 },
  resting: { least: 0.1, growth: 0.1, most: 2.5 },
} as const;

/** The longest step that the plant takes so long after the pump's last change, min. */
export const stepMinutesMax = (pump: keyof typeof STEP_MINUTES, minutesSinceEvent: number): number => {
  const { least, growth, most } = STEP_MINUTES[pump];
  return Math.min(most, least + growth * minutesSinceEvent);
};
