import type { Farm } from '../../src/farm/farm.ts';
import { farmWith } from '../unit/farm/example.ts';
import type { ClockChange } from './clock-changes.ts';

export { farmWith, type Change } from '../unit/farm/example.ts';

/** The invented farm on a hillside, parsed once. */
export const exampleFarm = farmWith();

/** The farm in the zone of a clock change, at the longitude where its clocks belong: 15° for each hour. */
export const movedTo = (farm: Farm, { timeZone, before }: ClockChange): Farm => {
  const degrees = before / 4;
  return {
    ...farm,
    place: { ...farm.place, timeZone, longitudeDegrees: degrees > 180 ? degrees - 360 : degrees },
  };
};
