/** What we did wrong, as opposed to what the world does: kept on in production. */
export class BrokenAssertion extends Error {
  override readonly name = 'BrokenAssertion';
}

/** @throws BrokenAssertion when `holds` is false */
export function assert(holds: boolean, message: string): asserts holds {
  if (!holds) throw new BrokenAssertion(message);
}

/** The item at `index` of a list that is known to hold it. @throws BrokenAssertion otherwise */
export const itemAt = <Item>(list: readonly Item[], index: number): Item => {
  const item = list[index];
  // Not by `assert`: its message would be put together at every call, and this one is on the plant's hot path.
  if (item === undefined) throw new BrokenAssertion(`no item ${index} in a list of ${list.length}`);
  return item;
};
