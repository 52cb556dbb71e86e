import type { FirmataPeer } from '../../sim/board/firmata/peer.ts';

/** Bytes of one question come together. */
const ONE_QUESTION_MILLIS = 300;
/** The host asks its board once a second, in the thread that commands the pump and through the same driver and line. */
export const QUESTION_MILLIS = 1000;

/** When a board was asked, by the clock of this process. */
export interface Questions {
  readonly peer: FirmataPeer;
  readonly forget: () => void;
  readonly count: () => number;
  /** By how much two questions were further apart than a second, at worst: so late a pump command would have been. */
  readonly latestMillis: () => number;
}

export const listenedTo = (peer: FirmataPeer): Questions => {
  const at: number[] = [];
  return {
    peer: {
      ...peer,
      receive: (bytes, now) => {
        const heard = performance.now();
        if (heard - (at.at(-1) ?? -Infinity) > ONE_QUESTION_MILLIS) at.push(heard);
        peer.receive(bytes, now);
      },
    },
    forget: () => {
      at.length = 0;
    },
    count: () => at.length,
    latestMillis: () =>
      Math.max(...at.slice(1).map((heard, place) => heard - at[place]! - QUESTION_MILLIS), -Infinity),
  };
};
