import type { Boundary } from './schema.ts';

const clockWords = (minutes: number): string =>
  `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;

/** The boundary as a grower writes it: `06:00`, `sunset+00:30`. */
export const boundaryWords = (boundary: Boundary): string => {
  if (boundary.kind === 'clock') return clockWords(boundary.minuteOfDay);
  if (boundary.offsetMinutes === 0) return boundary.event;
  const sign = boundary.offsetMinutes < 0 ? '-' : '+';
  return `${boundary.event}${sign}${clockWords(Math.abs(boundary.offsetMinutes))}`;
};

export const sameBoundary = (a: Boundary, b: Boundary): boolean => boundaryWords(a) === boundaryWords(b);
