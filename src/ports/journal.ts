/** Keeps what happened, in the order of the calls. */
export interface Journal<Entry> {
  readonly append: (entries: readonly Entry[]) => void;
}
