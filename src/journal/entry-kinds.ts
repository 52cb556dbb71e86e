import type { Entry } from './entry.ts';

/** What each kind is called, as whoever asks for it must write it; a kind that is missing here does not compile. */
const KINDS: Readonly<Record<Entry['kind'], true>> = {
  started: true,
  stopped: true,
  settings: true,
  'flood-started': true,
  'flood-retried': true,
  verdict: true,
  'pump-asked': true,
  sip: true,
  order: true,
  'alarm-raised': true,
  'alarm-returned': true,
  'alarm-acknowledged': true,
  'alarm-shelved': true,
  'shelve-refused': true,
  'alarm-unshelved': true,
  'alarm-called': true,
  delivery: true,
  'text-came': true,
  'link-lost': true,
  'link-found': true,
  'kept-run': true,
  'kept-gap': true,
  'left-to-board': true,
  'gap-recorded': true,
  'damaged-file-set-aside': true,
  dropped: true,
  reading: true,
};

/** All kinds of entries, those of one matter beside each other. */
export const ENTRY_KINDS: readonly string[] = Object.keys(KINDS);
