import { loudness } from '../loudness.ts';
import type { OpenLine } from './line.ts';

/**
 * Lines on which no more than so many bytes a minute are heard; one with more is closed, and told as lost. Whoever hears in
 * another thread cannot slow the line down, and what waits for it has no other bound: a device that never fell silent has
 * cost 1 GB in half a minute.
 */
export const boundedLines =
  (open: OpenLine, bytesAMinuteMax: number): OpenLine =>
  (name, events, atOpening) => {
    const isLoud = loudness(bytesAMinuteMax);
    let isOver = false;
    const line = open(
      name,
      {
        ...events,
        heard: (bytes) => {
          if (isOver) return;
          if (!isLoud(bytes.length)) {
            events.heard(bytes);
            return;
          }
          isOver = true;
          events.lost('what is at this port never falls silent; it is no modem, or the port is wrong');
          void line.close();
        },
        lost: (why) => {
          if (!isOver) events.lost(why);
          isOver = true;
        },
      },
      atOpening,
    );
    return line;
  };
