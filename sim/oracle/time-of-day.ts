import type { RunRecord, Stretch } from './record.ts';
import { CLOCKS_ASTRAY, MINUTE } from './stretches.ts';

/** A host that has just begun may not know yet that its clock is astray: a step so soon is the clock being set. */
const SETTING_MINUTES = 16;

/** Whether a host may have taken the time of day for another: one that began under a clock that was astray. */
export const partsAreMoved = (record: RunRecord, span: Stretch): boolean => {
  const births = [
    record.startMillis,
    ...record.broken.filter(({ name }) => name === 'host-killed').map(({ untilMillis }) => untilMillis),
  ];
  return record.broken.some(
    ({ name, fromMillis, untilMillis }) =>
      CLOCKS_ASTRAY.includes(name) &&
      fromMillis <= span.untilMillis &&
      span.fromMillis <= untilMillis &&
      births.some(
        (bornMillis) => fromMillis - SETTING_MINUTES * MINUTE <= bornMillis && bornMillis <= untilMillis,
      ),
  );
};
