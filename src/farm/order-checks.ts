import type { FarmProblem } from './problem.ts';
import type { ReadableFarm } from './readable.ts';

/** Two values of which the first must stay below the second. */
interface Pair {
  readonly low: readonly [path: string, value: number];
  readonly high: readonly [path: string, value: number];
  /** Whether both may be equal. */
  readonly rule: 'below' | 'at most';
  readonly why: string;
}

const spanPair = (name: string, span: { readonly shortest: number; readonly longest: number }): Pair => ({
  low: [`bounds.${name}.shortest`, span.shortest],
  high: [`bounds.${name}.longest`, span.longest],
  rule: 'below',
  why: 'There must be room between the shortest and the longest.',
});

const pairsOf = ({ floors, bounds, hotDay, climate, tank }: ReadableFarm): readonly Pair[] => {
  const pairs: Pair[] = [];
  if (floors !== undefined) {
    pairs.push({
      low: ['floors.wilt', floors.wilt],
      high: ['floors.stress', floors.stress],
      rule: 'below',
      why: 'Plants slow down before they wilt.',
    });
  }
  if (bounds !== undefined) {
    pairs.push(
      spanPair('restMinutesByDay', bounds.restMinutesByDay),
      spanPair('restMinutesByNight', bounds.restMinutesByNight),
      spanPair('floodMinutes', bounds.floodMinutes),
    );
  }
  if (hotDay !== undefined) {
    pairs.push({
      low: ['hotDay.minCelsius', hotDay.minCelsius],
      high: ['hotDay.maxCelsius', hotDay.maxCelsius],
      rule: 'below',
      why: 'The night of a hot day is cooler than its afternoon.',
    });
  }
  climate?.monthly.forEach(({ minCelsius, maxCelsius }, month) => {
    pairs.push({
      low: [`climate.monthly.${month}.minCelsius`, minCelsius],
      high: [`climate.monthly.${month}.maxCelsius`, maxCelsius],
      rule: 'below',
      why: 'The nights of a month are cooler than its afternoons.',
    });
  });
  if (tank !== undefined) {
    pairs.push(
      {
        low: ['tank.usualLitres', tank.usualLitres],
        high: ['tank.litres', tank.litres],
        rule: 'at most',
        why: 'The tank cannot hold more than it does to the brim.',
      },
      {
        low: ['tank.dryLitres', tank.dryLitres],
        high: ['tank.usualLitres', tank.usualLitres],
        rule: 'below',
        why: 'The pump would draw air from a tank filled as usual.',
      },
    );
    if (tank.strengthBand !== undefined) {
      const usual = ['tank.strengthMillisiemensPerCm', tank.strengthMillisiemensPerCm] as const;
      const { leastMillisiemensPerCm: least, mostMillisiemensPerCm: most } = tank.strengthBand;
      const why = 'The usual strength must lie inside the band, or its alarm would always stand.';
      pairs.push(
        { low: ['tank.strengthBand.leastMillisiemensPerCm', least], high: usual, rule: 'below', why },
        { low: usual, high: ['tank.strengthBand.mostMillisiemensPerCm', most], rule: 'below', why },
      );
    }
    if (tank.topUp !== 'by-hand') {
      pairs.push({
        low: ['tank.topUp.floatValveAtLitres', tank.topUp.floatValveAtLitres],
        high: ['tank.litres', tank.litres],
        rule: 'at most',
        why: 'The valve would never close before the tank runs over.',
      });
    }
  }
  return pairs;
};

/** Values that must stand in a certain order to each other. */
export const orderProblems = (file: ReadableFarm): readonly FarmProblem[] =>
  pairsOf(file).flatMap(({ low, high, rule, why }): readonly FarmProblem[] => {
    const inOrder = rule === 'below' ? low[1] < high[1] : low[1] <= high[1];
    if (inOrder) return [];
    return [
      {
        // Places in a list are numbers.
        path: low[0].split('.').map((key) => (/^\d+$/.test(key) ? Number(key) : key)),
        found: String(low[1]),
        allowed: `${rule} ${high[1]}, which is ${high[0]}`,
        problem: why,
      },
    ];
  });
