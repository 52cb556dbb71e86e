/**
 * Limits that no farm file may choose past. They guard against a slip of the pen, not against a bad plan:
 * the rehearsal judges plans. Common practice and engineering judgement, no source, unless one is named.
 */
export const LIMITS = {
  /** A flood longer than this is a leak of electricity and air: roots need the rest as well. */
  floodMinutes: { least: 0.5, most: 60 },
  /** Above four hours even a dull night leaves no time to act after one missed flood. */
  restMinutes: { least: 3, most: 360 },
  /** Starting windings and relay contacts; NEMA MG 10-2001 table 2-3 gives 30 starts an hour at 1 hp, 4 poles. */
  startsPerHour: { least: 1, most: 12 },
  floodsPerPart: { least: 1, most: 96 },
  /** The longest the board may run the pump on one command, whatever the plan says. */
  longestOnMinutes: { least: 1, most: 90 },
  shortestOffSeconds: { least: 10, most: 600 },
  stressFloor: { least: 0.3, most: 0.9 },
  wiltFloor: { least: 0.1, most: 0.6 },
  /** Hotter air never lengthens a rest: the sign is refused, not only warned of. */
  restPercentPerDegree: { least: -20, most: 0 },
  floodPercentPerDegree: { least: -20, most: 20 },
  sunOffsetMinutes: { least: -360, most: 360 },
} as const;
