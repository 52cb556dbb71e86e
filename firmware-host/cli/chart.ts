/** Eighths of a full bar, lowest first. */
const BARS = ['▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'] as const;

/** Below the floor that is marked. */
const BELOW = '×';

/** One character for a share from 0 to 1. */
export const bar = (share: number): string =>
  BARS[Math.min(BARS.length - 1, Math.max(0, Math.floor(share * BARS.length)))] ?? ' ';

/**
 * A row of `columns` bars: in each column the lowest of the values that fall into it, or `×` at or below the
 * floor. A column without a value repeats the one before; before the first value it is blank.
 */
export const lowestBars = (
  points: readonly { readonly at: number; readonly share: number }[],
  from: number,
  until: number,
  columns: number,
  floor: number,
): string => {
  const lowest = Array.from({ length: columns }, () => Infinity);
  for (const { at, share } of points) {
    // The last moment of the stretch belongs to its last column.
    const column = at === until ? columns - 1 : Math.floor(((at - from) / (until - from)) * columns);
    const before = lowest[column];
    if (before !== undefined) lowest[column] = Math.min(before, share);
  }
  let carried = ' ';
  return lowest
    .map((share) => {
      if (share !== Infinity) carried = share <= floor ? BELOW : bar(share);
      return carried;
    })
    .join('');
};

/** A row of marks: a column is filled where any of the stretches touches it. */
export const stretches = (
  spans: readonly { readonly from: number; readonly until: number }[],
  from: number,
  until: number,
  columns: number,
): string => {
  const width = (until - from) / columns;
  return Array.from({ length: columns }, (_, column) => {
    const start = from + column * width;
    const touched = spans.some((span) => span.from < start + width && span.until > start);
    return touched ? '▆' : '·';
  }).join('');
};

/** Labels under a row of `columns`, each at the column of its moment: `00       03       06 …`. */
export const axis = (
  labels: readonly { readonly at: number; readonly text: string }[],
  from: number,
  until: number,
  columns: number,
): string =>
  labels.reduce((line, { at, text }) => {
    const column = Math.round(((at - from) / (until - from)) * columns);
    return column + text.length > columns ? line : `${line.padEnd(column)}${text}`;
  }, '');
