import type { Breach, Check } from '../record.ts';
import { disturbed, RELAY_BROKEN } from '../stretches.ts';

/** I4: a host that has lost its board asks nothing of it, and nothing that it asked before starts the pump meanwhile. */
export const oneOwner: Check = (record) => {
  const { rows, truth, endMillis } = record;
  const breaches: Breach[] = [];
  let lostMillis: number | null = null;
  const over = (untilMillis: number): void => {
    if (lostMillis === null) return;
    const fromMillis = lostMillis;
    // A board that keeps the plants shall start it then: see `kept-owner.ts`.
    for (const run of record.keeps === true ? [] : truth.runs) {
      const inside = run.fromMillis > fromMillis + 1500 && run.fromMillis < untilMillis - 1500;
      if (inside && !disturbed(record, RELAY_BROKEN, run, 1, 1)) {
        breaches.push({
          invariant: 'I4',
          atMillis: run.fromMillis,
          words: 'the pump was started while no host was heard',
        });
      }
    }
    lostMillis = null;
  };
  for (const { entry, atMillis } of rows) {
    if (entry.kind === 'started' || entry.kind === 'link-found') over(atMillis);
    if (entry.kind === 'link-lost') lostMillis = atMillis;
    if (entry.kind === 'pump-asked' && lostMillis !== null && atMillis > lostMillis) {
      breaches.push({
        invariant: 'I4',
        atMillis,
        words: `the pump was asked ${entry.pump} of a board that was lost`,
      });
    }
  }
  over(endMillis);
  return breaches;
};
