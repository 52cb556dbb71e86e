/** A byte as it was received. */
export interface Received {
  readonly byte: number;
  /** Its stop bit was not where it should be. */
  readonly spoilt: boolean;
}

interface Kept extends Received {
  /** At least one byte was lost between the one before and this. */
  readonly afterLoss: boolean;
}

export interface ReceiveBuffer {
  /** A new byte begins: one that still waits in the shift register is lost. */
  readonly startBit: () => void;
  readonly put: (received: Received) => void;
  readonly first: () => Kept | null;
  readonly take: () => number | null;
  readonly flush: () => void;
  readonly overruns: () => number;
}

/** Behind the shift register (data sheet, "Receive Complete Flag and Interrupt", "Receiver Error Flags"). */
const DEPTH = 2;

/**
 * The receive buffer of the USART: two bytes, and a third that has not left the shift register. The data sheet
 * says that DOR is "valid until the receive buffer is read" and tells of a loss "between the frame last read from
 * UDR, and the next frame read": here it comes with the first byte after the gap.
 */
export const createReceiveBuffer = (): ReceiveBuffer => {
  const kept: Kept[] = [];
  let overruns = 0;
  let gap = false;
  return {
    startBit: () => {
      if (kept.length <= DEPTH) return;
      kept.pop();
      overruns += 1;
      gap = true;
    },
    put: (received) => {
      kept.push({ ...received, afterLoss: gap });
      gap = false;
    },
    first: () => kept[0] ?? null,
    take: () => kept.shift()?.byte ?? null,
    flush: () => {
      kept.length = 0;
      gap = false;
    },
    overruns: () => overruns,
  };
};
