import type { Happening } from './entry.ts';

/** Which entries memory gives up first when the disk takes nothing: readings, then ordinary ones, grave ones last. */
export type Rank = 'reading' | 'ordinary' | 'grave';

/** What the grower must find in the book, whatever else is lost; alarms besides. */
const GRAVE: readonly string[] = [
  'verdict',
  'order',
  'kept-run',
  'settings',
  'started',
  'stopped',
  'left-to-board',
  'gap-recorded',
  'damaged-file-set-aside',
  'dropped',
  'delivery',
] satisfies readonly (Happening['kind'] | 'delivery')[];

export const rankOf = (kind: string): Rank => {
  if (kind === 'reading') return 'reading';
  return kind.startsWith('alarm-') || GRAVE.includes(kind) ? 'grave' : 'ordinary';
};
