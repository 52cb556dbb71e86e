import { realFarm, type RealFarm } from './keeper-farms.ts';

/** A flood of half a minute, the shortest that a farm file may ask for, so that a test sees its end and what comes after it. */
export const BRISK = { floodSeconds: 30, restMinutes: 8 } as const;

/**
 * The example farm made real with the same short floods the whole day, whatever the temperature, and nothing that tells
 * whether water came back: each flood has its verdict at its end. `more` stands at the end of the file.
 */
export const briskFarm = (name: string, more = ''): RealFarm =>
  realFarm(
    name,
    (text) =>
      text
        .replace(
          /^dayPlan:\n(?: {2}.*\n)+/m,
          `dayPlan:\n  - { part: all day, from: '00:00', to: '24:00', restMinutes: ${BRISK.restMinutes}, floodMinutes: ${BRISK.floodSeconds / 60} }\n`,
        )
        .replace('restPercentPerDegree: -3', 'restPercentPerDegree: 0')
        .replace(
          /^bounds:\n(?: {2}.*\n)+/m,
          `bounds:
  restMinutesByDay: { shortest: 4, longest: ${BRISK.restMinutes} }
  restMinutesByNight: { shortest: 4, longest: ${BRISK.restMinutes} }
  floodMinutes: { shortest: 0.5, longest: 5 }
  startsPerHour: 12\n`,
        )
        .replace(
          /^evidence:\n(?: {2}.*\n)+/m,
          'evidence: { returnFlow: none, pumpCurrent: false, relayReadBack: false, tankFloat: true }\n',
        )
        .replace(/^ {2}(?:returnFlow|relayReadBack|pumpCurrent): \{ pin.*\n/gm, '')
        .replace('shortestOffSeconds: 30', 'shortestOffSeconds: 10') + more,
  );
