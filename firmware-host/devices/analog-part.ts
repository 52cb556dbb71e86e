import type { MonotonicMillis } from '../../src/time/instant.ts';
import { READ_MILLIS, type Fitting } from './fitting.ts';

/**
 * A part on an analog pin: the median of a second, told only when the board has really reported since it was
 * told last. The library itself would tell the last value of a silent board for ever.
 */
export const analogPart = (
  { library, io, board, timers }: Fitting,
  pin: string,
  tell: (counts: number, at: MonotonicMillis) => void,
): void => {
  let heardAt: MonotonicMillis | null = null;
  new library.Sensor({ pin, freq: READ_MILLIS, board }).on('data', (counts) => {
    if (heardAt === null || counts === null) return;
    tell(counts, heardAt);
    heardAt = null;
  });
  io.on(`analog-read-${pin.slice(1)}`, () => {
    heardAt = timers.now();
  });
};
