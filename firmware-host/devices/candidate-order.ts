import type { LineCandidate } from './line.ts';

/** Words for a port that name no line. */
const NOT_A_LINE: readonly string[] = ['auto', 'demo'];

/**
 * What is tried, in its order: first what a person named or what is known, whether or not the system lists it.
 */
export const inOrder = (
  found: readonly LineCandidate[],
  port: string,
  isKnown: (candidate: LineCandidate) => boolean,
): readonly LineCandidate[] => {
  const isListed = NOT_A_LINE.includes(port) || found.some(({ name }) => name === port);
  const all = isListed ? found : [{ name: port, serialNumber: null, says: 'named by a person' }, ...found];
  return all.toSorted((a, b) => Number(isKnown(b)) - Number(isKnown(a)));
};
