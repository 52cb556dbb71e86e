/** Eighths of a full bar, lowest first. */
const BARS = ['▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'] as const;

/** One character for a share from 0 to 1. */
export const bar = (share: number): string =>
  BARS[Math.min(BARS.length - 1, Math.max(0, Math.floor(share * BARS.length)))] ?? ' ';

/** A row of `columns` bars: in each column the lowest of the values that fall into it. */
export const lowestBars = (
  points: readonly { readonly at: number; readonly share: number }[],
  from: number,
  until: number,
  columns: number,
): string => {
  const lowest = Array.from({ length: columns }, () => Infinity);
  for (const { at, share } of points) {
    const column = Math.floor(((at - from) / (until - from)) * columns);
    const before = lowest[column];
    if (before !== undefined) lowest[column] = Math.min(before, share);
  }
  let carried = 1;
  return lowest
    .map((share) => {
      if (share !== Infinity) carried = share;
      return bar(carried);
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

/** `00    03    06 …` under a row of `columns`. */
export const hourAxis = (columns: number): string => {
  const step = columns / 8;
  return Array.from({ length: 8 }, (_, place) =>
    String(place * 3)
      .padStart(2, '0')
      .padEnd(step),
  ).join('');
};
