import { wallMillis, type WallMillis } from '../../../src/time/instant.ts';

/** `"26/07/14,13:42:00+04"` (3GPP TS 27.005, 3.1, `<scts>`; 27.007, 8.15): year, month, day, clock, quarters of an hour before UTC. */
const STAMP = /"(\d\d)\/(\d\d)\/(\d\d),(\d\d):(\d\d):(\d\d)([+-]\d\d)"/;
const QUARTER_MILLIS = 900_000;
/** No zone is further than 14 h from UTC. */
const QUARTERS_MOST = 56;

/**
 * When the service centre took a text, by the header that the modem gives it; undefined where that names no moment. It is
 * the clock of the network, and as good as that.
 */
export const sentAtIn = (header: string): WallMillis | undefined => {
  const found = STAMP.exec(header)?.slice(1).map(Number);
  if (found === undefined) return undefined;
  const [year = 0, month = 0, day = 0, hour = 0, minute = 0, second = 0, quarters = 0] = found;
  const local = Date.UTC(2000 + year, month - 1, day, hour, minute, second);
  const back = new Date(local);
  const isDate = back.getUTCMonth() === month - 1 && back.getUTCDate() === day && hour < 24 && minute < 60;
  return isDate && Math.abs(quarters) <= QUARTERS_MOST
    ? wallMillis(local - quarters * QUARTER_MILLIS)
    : undefined;
};
