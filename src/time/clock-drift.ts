/** How the seconds of one clock go against those of another that counts. */
export interface ClockDrift {
  /** How much faster they go. */
  readonly percent: number;
  readonly level: 'well' | 'warning' | 'alarm';
}

/** Beyond a quartz or ceramic resonator by far (fault 28): said, and from there on an alarm. */
const WARN_PERCENT = 2;
const ALARM_PERCENT = 5;

/** The drift of a clock that has counted `seconds` while the one that counts went on by `trueSeconds`, more than none. */
export const clockDrift = (seconds: number, trueSeconds: number): ClockDrift => {
  const percent = (100 * (seconds - trueSeconds)) / trueSeconds;
  const size = Math.abs(percent);
  return { percent, level: size > ALARM_PERCENT ? 'alarm' : size > WARN_PERCENT ? 'warning' : 'well' };
};
