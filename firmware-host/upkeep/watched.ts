import { secondsBetween, type MonotonicMillis } from '../../src/time/instant.ts';

/**
 * Looks at something of the machine now and then, one look at a time, and never waits: it may be slow to answer. What is known is
 * carried on from look to look.
 */
export const watched = <Seen, Known>(
  everySeconds: number,
  look: () => Promise<Seen>,
  after: (before: Known | null, seen: Seen, now: MonotonicMillis) => Known | null,
): ((now: MonotonicMillis) => Known | null) => {
  let known: Known | null = null;
  let lookedAt: MonotonicMillis | null = null;
  let isLooking = false;
  const looked = async (now: MonotonicMillis): Promise<void> => {
    known = after(known, await look(), now);
    isLooking = false;
  };
  return (now) => {
    const isDue = lookedAt === null || secondsBetween(lookedAt, now) >= everySeconds;
    if (isDue && !isLooking) {
      lookedAt = now;
      isLooking = true;
      void looked(now);
    }
    return known;
  };
};
